"""What facts change: a fresh plan with them, against what people were told, or else the plan without them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from sequencer.plan import Plan
from sequencer.planning import plan_of, settled
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.terms.with_facts import agreed_at_first, as_made, with_facts

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Move:
    """A step that is still to come. `was`: its start before, None: it is new. `starts`: its start now, None: gone."""

    id: str
    was: Minute | None
    starts: Minute | None


@dataclass(frozen=True)
class Moves:
    """Hand-over before and now, what moves by its new start, and how many steps to come stay where they are.

    `told`: before is what people were told. `plan`: the new plan, `job` what it was made of.
    """

    job: Job
    plan: Plan
    told: bool
    was: Minute
    moved: tuple[Move, ...]
    stay: int

    @property
    def said(self) -> tuple[str, ...]:
        """What the plan rests on because something is told, or is not: deliveries, inspections, visits."""
        written = self.job.as_written.assumed if self.job.as_written is not None else self.job.assumed
        return tuple(text for text in self.job.assumed if text not in written)


def moves(job: Job, facts: Iterable[Fact], effort: float = 1.0, told: Tell = lambda _: None) -> Moves:
    """What these facts, written or only thought of, change in the plan of a job. NoOrderFits if none fits then."""
    return between(job, with_facts(job, facts), effort, told)


def between(job: Job, changed: Job, effort: float = 1.0, told: Tell = lambda _: None) -> Moves:
    """What is different where a job has other facts. NoOrderFits if nothing fits with them."""
    if changed.told is not None:
        starts, finish = changed.told.starts, changed.told.finish
        changed = settled(changed, effort, told)
        return _compared(changed, plan_of(changed, effort, told), starts, finish, True)
    made = plan_of(as_made(job), effort, told)
    before = plan_of(settled(job, effort, told, made.pieces), effort, told) if job.facts else made
    changed = settled(changed, effort, told, made.pieces if agreed_at_first(job) == agreed_at_first(changed) else None)
    starts = {step.id: step.start for step in before.steps}
    return _compared(changed, plan_of(changed, effort, told), starts, before.finish, False)


def _compared(job: Job, plan: Plan, was: Mapping[str, Minute], finish: Minute, told: bool) -> Moves:
    coming = [step for step in plan.steps if step.state == "planned"]
    moved = [Move(step.id, was.get(step.id), step.start) for step in coming if was.get(step.id) != step.start]
    known = {step.id for step in plan.steps}
    gone = [Move(id, start, None) for id, start in was.items() if id not in known]
    return Moves(job, plan, told, finish, (*gone, *moved), len(coming) - len(moved))
