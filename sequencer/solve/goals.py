"""The goals between hand-over and "everything as early as it can be", laid on the grid: what a plan counts for each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from sequencer.network.counted import Counted, CountedGoal, Moved, Reached
from sequencer.network.model import Minutes

if TYPE_CHECKING:
    from sequencer.solve.problem import Slots
    from sequencer.solve.trim import Trimmed

NOWHERE = -1
"""The place of a start that a task does not have."""

BEFORE_ALL = -1
"""The number of a day before the first day of a trade."""


@dataclass(frozen=True)
class SlotMoved:
    """1 if any of these tasks has another place in its starts than the one beside it."""

    places: tuple[tuple[int, int], ...]

    def value(self, places: Sequence[int]) -> int:
        """What a plan counts."""
        return int(any(places[task] != place for task, place in self.places))

    def least(self, trimmed: Trimmed) -> int:
        """What every plan within a trimmed range counts at least."""
        return int(any(not trimmed.first[task] <= place <= trimmed.last[task] for task, place in self.places))

    def most(self, trimmed: Trimmed) -> int:
        """What no plan within a trimmed range goes beyond."""
        return 1


@dataclass(frozen=True)
class SlotReached:
    """The greatest of the values by place of these tasks; values never fall."""

    values: tuple[tuple[int, Slots], ...]

    def value(self, places: Sequence[int]) -> int:
        """What a plan counts."""
        return max(int(values[places[task]]) for task, values in self.values)

    def least(self, trimmed: Trimmed) -> int:
        """What every plan within a trimmed range counts at least."""
        return self.value(trimmed.first)

    def most(self, trimmed: Trimmed) -> int:
        """What no plan within a trimmed range goes beyond."""
        return self.value(trimmed.last)

    def last_places(self, limit: int) -> dict[int, int]:
        """The last place of each task that counts no more than a limit."""
        return {task: int(values.searchsorted(limit, side="right")) - 1 for task, values in self.values}


@dataclass(frozen=True)
class SlotRuns:
    """The runs of days that these tasks take: for each its first and its last day by place; what lies behind stands on
    the same days wherever one of the tasks is."""

    days: tuple[tuple[int, Slots, Slots], ...]

    def value(self, places: Sequence[int]) -> int:
        """What a plan counts."""
        return _runs((int(first[places[task]]), int(last[places[task]])) for task, first, last in self.days)

    def least(self, trimmed: Trimmed) -> int:
        """What every plan within a trimmed range counts at least: groups of tasks whose days can never meet."""
        return len(self.apart(trimmed))

    def most(self, trimmed: Trimmed) -> int:
        """What no plan within a trimmed range goes beyond."""
        return len(self.days)

    def apart(self, trimmed: Trimmed) -> list[list[tuple[int, Slots, Slots]]]:
        """The tasks in groups, by their days; no run can hold tasks of two groups."""
        ranges = [
            (int(first[trimmed.first[task]]), int(last[trimmed.last[task]]), number)
            for number, (task, first, last) in enumerate(self.days)
        ]
        groups: list[list[tuple[int, Slots, Slots]]] = []
        reach = 0
        for begin, end, number in sorted(ranges):
            if groups and begin <= reach + 1:
                groups[-1].append(self.days[number])
            else:
                groups.append([self.days[number]])
            reach = max(end, reach) if len(groups[-1]) > 1 else end
        return groups


SlotCounted: TypeAlias = SlotMoved | SlotReached | SlotRuns


@dataclass(frozen=True)
class SlotGoal:
    """A goal: the sum of its costs."""

    name: str
    costs: tuple[SlotCounted, ...]

    def value(self, places: Sequence[int]) -> int:
        """What a plan counts."""
        return sum(cost.value(places) for cost in self.costs)

    def least(self, trimmed: Trimmed) -> int:
        """What every plan within a trimmed range counts at least."""
        return sum(cost.least(trimmed) for cost in self.costs)

    def most(self, trimmed: Trimmed) -> int:
        """What no plan within a trimmed range goes beyond."""
        return sum(cost.most(trimmed) for cost in self.costs)

    def last_places(self, limit: int) -> dict[int, int]:
        """The last place of each task that counts no more than a limit, where a start alone tells."""
        only = self.costs[0]
        return only.last_places(limit) if len(self.costs) == 1 and isinstance(only, SlotReached) else {}


Times: TypeAlias = Mapping[str, tuple[Minutes, Minutes]]
"""The allowed starts of each task, and their ends."""


def lay_goals(goals: Iterable[CountedGoal], number: Mapping[str, int], times: Times) -> tuple[SlotGoal, ...]:
    """Goals by the places of their tasks' starts."""
    return tuple(SlotGoal(goal.name, tuple(_laid(cost, number, times) for cost in goal.costs)) for goal in goals)


def _laid(cost: Counted, number: Mapping[str, int], times: Times) -> SlotCounted:
    if isinstance(cost, Moved):
        return SlotMoved(tuple((number[task], _place(times[task][0], at)) for task, at in cost.starts))
    if isinstance(cost, Reached):
        half_days = np.array(cost.half_days, dtype=np.int64)
        values = []
        for task, ready in cost.ready:
            ends = times[task][1]
            moments = ends if ready is None else ready(ends)
            values.append((number[task], half_days.searchsorted(moments, side="right").astype(np.int64)))
        return SlotReached(tuple(values))
    days = []
    for task in cost.tasks:
        starts, ends = times[task]
        first = cost.hours.day[np.maximum(cost.hours.span_at(starts), 0)]
        last = cost.hours.day[np.maximum(cost.hours.span_at(np.maximum(ends - 1, starts)), 0)]
        days.append((number[task], first, last))
    for begin, end in cost.behind:
        one = cost.tasks[0]
        spans = cost.hours.span_at(np.array([begin, max(end - 1, begin)], np.int64))
        over = np.where(spans < 0, BEFORE_ALL, cost.hours.day[np.maximum(spans, 0)])
        first, last = (np.full(len(times[one][0]), day, dtype=np.int64) for day in over.tolist())
        days.append((number[one], first, last))
    return SlotRuns(tuple(days))


def _place(starts: Minutes, at: int) -> int:
    place = int(starts.searchsorted(at))
    return place if place < len(starts) and int(starts[place]) == at else NOWHERE


def _runs(days: Iterable[tuple[int, int]]) -> int:
    runs, reach = 0, 0
    for first, last in sorted(days):
        if not runs or first > reach + 1:
            runs, reach = runs + 1, last
        reach = max(reach, last)
    return runs
