"""The plans that are left when hand-over and the first goals behind it are kept, and what they count at the least."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sequencer.solve.answer import GoalReached
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed, trim


class Range:
    """Plans that hand over at or before given places and count no more than `limits` for the first goals."""

    def __init__(self, problem: Problem, hand_over_by: int, by: Mapping[int, int], limits: Iterable[int] = ()) -> None:
        self.problem, self.hand_over_by, self.by = problem, hand_over_by, by
        self.limits = tuple(limits)

    def limited(self, limit: int) -> Range:
        """The plans among these that count no more than a limit for the next goal."""
        return Range(self.problem, self.hand_over_by, self.by, (*self.limits, limit))

    def trimmed(self) -> Trimmed:
        """The starts that are left in it; a plan at hand lies inside, so there are some."""
        by = dict(self.by)
        for goal, limit in zip(self.problem.goals, self.limits, strict=False):
            for task, place in goal.last_places(limit).items():
                by[task] = min(place, by.get(task, place))
        found = trim(self.problem, self.hand_over_by, by)
        assert found is not None, "the plan at hand lies outside its own trimmed starts"
        return found


def met_at_least(within: Range, places: Sequence[int]) -> tuple[Range, tuple[GoalReached, ...]]:
    """The first goals that a plan meets as well as any plan can, and the range in which they stay met."""
    met: list[GoalReached] = []
    for goal in within.problem.goals:
        value, least = goal.value(places), goal.least(within.trimmed())
        if value > least:
            break
        met.append(GoalReached(goal.name, value, least))
        within = within.limited(value)
    return within, tuple(met)


def unproven(within: Range, places: Sequence[int]) -> tuple[GoalReached, ...]:
    """What a plan counts for each goal, and what none can count less for: a goal behind one that could be met better
    has no bound but that of the range."""
    within, met = met_at_least(within, places)
    trimmed = within.trimmed()
    rest = within.problem.goals[len(met) :]
    return (*met, *(GoalReached(goal.name, goal.value(places), goal.least(trimmed)) for goal in rest))
