"""The goals between hand-over and "everything as early as it can be": what is met at its least is kept, the rest is
one search in which each goal counts more than all that stand behind it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sequencer.solve.answer import GoalReached
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed, trim

BETWEEN_EFFORT = 6.0
"""Limit of the search [deterministic seconds of the solver]."""


@dataclass(frozen=True)
class Settled:
    """A plan, and how far it met each goal. `interrupted`: somebody stopped the search."""

    places: list[int]
    goals: tuple[GoalReached, ...]
    interrupted: bool = False


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


def settle(within: Range, places: list[int], effort: float) -> Settled:
    """A plan at least as good, goal by goal; `effort` scales the limit."""
    left, met = met_at_least(within, places)
    if len(met) == len(within.problem.goals):
        return Settled(places, met)
    from sequencer.solve.search_goals import minimise_goals

    found = minimise_goals(left, places, BETWEEN_EFFORT * effort)
    return Settled(found.places, (*met, *found.goals), found.interrupted)
