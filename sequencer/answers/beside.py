"""What a change in one job does to the jobs beside it: their hand-overs, and the visits of the people they share."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from sequencer.plan import Beside, Plan
from sequencer.planning import plan_of, settled
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute

Tell = Callable[[str], None]


@dataclass(frozen=True)
class StepMoved:
    """A step of somebody shared, at another job: its start before and now."""

    trade: str
    step: str
    was: Minute
    starts: Minute


@dataclass(frozen=True)
class OtherJob:
    """Another job now. `was`: its hand-over before; `moved`: what of the people it shares moves there, by new start."""

    now: Beside
    was: Minute
    moved: tuple[StepMoved, ...]

    @property
    def changed(self) -> bool:
        """True if its hand-over or anybody's step there moves."""
        return bool(self.moved) or self.was != self.now.finish


@dataclass(frozen=True)
class _Before:
    finish: Minute
    starts: Mapping[str, Minute]


def others_moved(
    job: Job, after: Plan, effort: float = 1.0, told: Tell = lambda _: None
) -> tuple[OtherJob, ...]:
    """The jobs beside a job in a plan of it that was changed, against what people were told of them.

    `job`: as it was before the change; it is planned as such where people were not told of all of them. NoOrderFits.
    """
    before = _told(job) if all(other.told for other in job.beside) else _planned(job, effort, told)
    return tuple(
        OtherJob(one, before[one.job].finish, _moved(before[one.job], after, one)) for one in after.beside
    )


def others_told(job: Job, plan: Plan) -> tuple[OtherJob, ...]:
    """The jobs beside a job in its plan, those of which people were told a plan, against that."""
    before = _told(job)
    told = (one for one in plan.beside if one.job in before)
    return tuple(OtherJob(one, before[one.job].finish, _moved(before[one.job], plan, one)) for one in told)


def _told(job: Job) -> dict[str, _Before]:
    return {other.name: _Before(other.told.finish, other.told.starts) for other in job.beside if other.told}


def _planned(job: Job, effort: float, told: Tell) -> dict[str, _Before]:
    plan = plan_of(settled(job, effort, told), effort, told)
    return {
        one.job: _Before(one.finish, {each.id: each.start for each in plan.elsewhere if each.job == one.title})
        for one in plan.beside
    }


def _moved(before: _Before, after: Plan, job: Beside) -> tuple[StepMoved, ...]:
    """Steps to come that were known before and start at another moment now."""
    here = (one for one in after.elsewhere if one.job == job.title and one.start >= after.as_of)
    return tuple(
        StepMoved(one.trade, one.step, before.starts[one.id], one.start)
        for one in here
        if before.starts.get(one.id, one.start) != one.start
    )
