"""One row of the audit's tables: a sound plan, one change, and what the audit then says."""

from __future__ import annotations

from dataclasses import dataclass, field

from tiny_jobs import broken, times

from sequencer.terms.job import Job


@dataclass(frozen=True)
class Row:
    """`plan` keeps every rule of `job`; with `change` (and hand-over at `then_over`) it breaks exactly what `says`."""

    job: Job
    plan: dict[str, str]
    change: dict[str, str]
    says: tuple[str, ...]
    over: str = "Fri2 15"
    then_over: str = field(default="")

    def before(self) -> tuple[str, ...]:
        """What the audit says of the sound plan."""
        return broken(self.job, times(self.plan, self.over))

    def after(self) -> tuple[str, ...]:
        """What it says of the changed one."""
        return broken(self.job, times(self.plan | self.change, self.then_over or self.over))
