"""What facts change: a fresh plan with them, against what people were told, or else the plan without them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sequencer.answers.what_now.visits import as_told
from sequencer.plan import Plan
from sequencer.planning import plan_of, settled
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, Span
from sequencer.terms.told import Told
from sequencer.terms.with_facts import agreed_at_first, as_made

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Before:
    """The plan that facts are set against: what people were told, or else (`told` False) the plan without the facts.

    `made`: of a plan nobody was told, the spans of work of each step as planned before the work began.
    """

    plan: Told
    told: bool
    made: Mapping[str, tuple[Span, ...]] | None = None


@dataclass(frozen=True)
class Move:
    """A step that is still to come. `was`: its start before, None: it is new. `starts`: its start now, None: gone."""

    id: str
    was: Minute | None
    starts: Minute | None


@dataclass(frozen=True)
class Moves:
    """What moves by its new start, and how many steps to come stay where they are.

    `plan`: the new plan, `job` what it was made of.
    """

    job: Job
    plan: Plan
    moved: tuple[Move, ...]
    stay: int

    @property
    def said(self) -> tuple[str, ...]:
        """What the plan rests on because something is told, or is not: deliveries, inspections, visits."""
        written = self.job.as_written.assumed if self.job.as_written is not None else self.job.assumed
        return tuple(text for text in self.job.assumed if text not in written)


def known(job: Job, effort: float = 1.0, told: Tell = lambda _: None) -> Before:
    """What people were told of a job; where nobody was told a plan, the plan as it is. NoOrderFits if there is none."""
    if job.told is not None:
        return Before(job.told, True)
    made = plan_of(as_made(job), effort, told)
    plan = plan_of(settled(job, effort, told, made.pieces), effort, told) if job.facts else made
    return Before(as_told(plan), False, made.pieces)


def moves(job: Job, changed: Job, before: Before, effort: float = 1.0, told: Tell = lambda _: None) -> Moves:
    """What is different where a job has other facts. `before`: what is known. NoOrderFits if nothing fits with them."""
    made = before.made if agreed_at_first(job) == agreed_at_first(changed) else None
    changed = settled(changed, effort, told, made)
    plan, was = plan_of(changed, effort, told), before.plan.starts
    coming = [step for step in plan.steps if step.state == "planned"]
    moved = [Move(step.id, was.get(step.id), step.start) for step in coming if was.get(step.id) != step.start]
    present = {step.id for step in plan.steps}
    gone = [Move(id, start, None) for id, start in was.items() if id not in present]
    return Moves(changed, plan, (*gone, *moved), len(coming) - len(moved))
