"""What several jobs are judged by: days late against promises, then the sum of their hand-overs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sequencer.network.model import Network
from sequencer.solve.problem import EndOfJob, Problem, Slots

DAYS_LATE, HAND_OVERS, FIRST = "days late", "hand-overs", "hand-over of the first"
"""Names of goals: days late of all jobs together, half-days of all hand-overs, half-day of one that comes first."""


@dataclass(frozen=True)
class Measure:
    """A sum that is to be small: for each task its part by the place of its start, never falling."""

    name: str
    parts: tuple[tuple[int, Slots], ...]

    def of(self, places: Sequence[int]) -> int:
        """The sum of a plan."""
        return sum(int(values[places[task]]) for task, values in self.parts)

    def least(self, first: Mapping[int, int]) -> int:
        """The sum if every task took the first of its places that is not ruled out."""
        return sum(int(values[first[task]]) for task, values in self.parts)


Bounded = tuple[Measure, int]
"""A measure and the most it may be."""


def with_ends(problem: Problem, network: Network) -> Problem:
    """The problem with the hand-overs of the network's jobs."""
    ends = []
    for end in network.ends:
        task = problem.ids.index(end.task)
        moments = problem.base + problem.slot * problem.starts[task]
        ends.append(EndOfJob(task, end.half_day(moments), end.days_late(moments)))
    return replace(problem, ends=tuple(ends))


def measures(problem: Problem, first: str | None = None) -> list[Measure]:
    """Days late, then half-days; where one hand-over comes `first`, its own half-day before both."""
    late = Measure(DAYS_LATE, tuple((end.task, end.days_late) for end in problem.ends))
    half_days = Measure(HAND_OVERS, tuple((end.task, end.half_day) for end in problem.ends))
    own = [Measure(FIRST, ((end.task, end.half_day),)) for end in problem.ends if problem.ids[end.task] == first]
    return [*own, late, half_days]


def first_places(problem: Problem, floors: Mapping[str, int]) -> dict[int, int]:
    """The first place of every hand-over in or after its half-day in `floors`, by task."""
    found = {}
    for end in problem.ends:
        place = int(end.half_day.searchsorted(floors.get(problem.ids[end.task], 0)))
        found[end.task] = min(place, len(end.half_day) - 1)
    return found


def promised(problem: Problem, begin: Mapping[int, int]) -> dict[int, int]:
    """The last place of every hand-over that is not late, or the first not ruled out where that is late too."""
    in_time = ((end.task, int(end.days_late.searchsorted(1)) - 1) for end in problem.ends)
    return {task: max(begin[task], place) for task, place in in_time}


def last_places(problem: Problem, bounded: Sequence[Bounded], first: Mapping[int, int]) -> dict[int, int] | None:
    """The last place of every hand-over that the bounds leave it, others being as early as can be; None: no place."""
    found = {end.task: len(end.half_day) - 1 for end in problem.ends}
    for measure, most in bounded:
        spare = most - measure.least(first)
        for task, values in measure.parts:
            allowed = int(values[first[task]]) + spare
            found[task] = min(found[task], int(values.searchsorted(allowed, side="right")) - 1)
    return None if any(found[task] < place for task, place in first.items()) else found


def kept_half_days(problem: Problem, places: Sequence[int]) -> dict[int, int]:
    """The last place of every hand-over in the half-day it has in a plan."""
    half_days = ((end, int(end.half_day[places[end.task]])) for end in problem.ends)
    return {end.task: int(end.half_day.searchsorted(half_day, side="right")) - 1 for end, half_day in half_days}
