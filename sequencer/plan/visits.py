"""Who comes when, what became of what they were told, and where else they are."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place


@dataclass(frozen=True)
class Visit:
    """One run of a trade's own working days in this job. `state`: pencilled, asked, firm, done or released.

    `id` lasts. `told`: when the visit of this id begins in the plan people were told, None if they were not told of it.
    """

    id: str
    trade: str
    start: Minute
    end: Minute
    steps: tuple[str, ...]
    state: str
    call_by: Minute | None
    told: Minute | None = None


@dataclass(frozen=True)
class CalledOff:
    """A visit people were told of that is not in the plan any more: its lasting id, whose it was, when it was."""

    id: str
    trade: str
    at: Minute


@dataclass(frozen=True)
class GivenUp:
    """A firm visit that no plan could keep: whose it was, for which step, at which moment, and where it is written."""

    trade: str
    step: str
    at: Minute
    where: Place


@dataclass(frozen=True)
class Elsewhere:
    """Somebody at a step of another job. `job`, `step`: their titles, `id` of the step.

    `place`: where, if not on that job's site.
    """

    trade: str
    job: str
    id: str
    step: str
    start: Minute
    end: Minute
    hands: int = 1
    place: str | None = None


@dataclass(frozen=True)
class Beside:
    """Another job that shares people: its hand-over, and how many days late that is against its promise."""

    job: str
    title: str
    zone: str
    promise: Minute | None
    finish: Minute
    days_late: int
