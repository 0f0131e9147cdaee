"""What decides among plans that hand over in the same half-day, in the order the job prefers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Final

from sequencer.network.case import Case
from sequencer.network.counted import CountedGoal, Moved, Reached, Runs
from sequencer.network.model import MinuteFunction
from sequencer.terms.goal import AWAITED, BACK_SOON, FEW_VISITS, KEEP_TOLD, TOLD_VISITS_MOVED, VISITS


def goals(case: Case) -> tuple[CountedGoal, ...]:
    """The goals of a job that something can be counted for, the one that decides first in front."""
    found = (goal for preference in case.job.prefer for goal in _OF[preference](case))
    return tuple(goal for goal in found if goal.costs)


def _told(case: Case) -> Iterator[CountedGoal]:
    """A visit of another trade is moved when one of its steps starts at another moment than its trade was told."""
    told = case.job.told_starts
    visits = case.job.told.visits if case.job.told is not None else ()
    starts = (tuple((id, told[id]) for id in visit.steps if id in told) for visit in visits)
    yield CountedGoal(TOLD_VISITS_MOVED, tuple(Moved(each) for each in starts if each))


def _milestones(case: Case) -> Iterator[CountedGoal]:
    """Where people live they ask for these; counted in half-days, like hand-over."""
    if not case.job.house.lived_in:
        return
    for word in AWAITED:
        ready = tuple(_ready(case, word))
        yield CountedGoal(word, (Reached(ready, case.job.half_days),) if ready else ())


def _ready(case: Case, word: str) -> Iterator[tuple[str, MinuteFunction | None]]:
    for step in case.job.steps:
        for given in step.gives:
            if given.state == word:
                wait = step.wait_for(given.purpose) if given.purpose else None
                yield step.id, case.clock(step, wait).ready if wait else None


def _visits(case: Case) -> Iterator[CountedGoal]:
    """Every trade but the one whose job it is."""
    costs = []
    for name, hours in case.openings.items():
        tasks = tuple(step.id for step in case.job.steps if step.trade == name)
        costs += [Runs(tasks, hours)] if tasks and name != case.job.hand_over_trade else []
    yield CountedGoal(VISITS, tuple(costs))


_OF: Final[Mapping[str, Callable[[Case], Iterator[CountedGoal]]]] = {
    KEEP_TOLD: _told,
    BACK_SOON: _milestones,
    FEW_VISITS: _visits,
}
