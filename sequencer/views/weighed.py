"""What was weighed among the plans that hand over in the same half-day, in the order it decided, and how surely."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.plan import Goal, Plan, Plans
from sequencer.terms.goal import AWAITED, SOONEST_GOAL, TOLD_VISITS_MOVED, VISITS
from sequencer.terms.words import OWN_TRADE

FEWEST, BEST_TOGETHER = "the fewest possible", "the best for all jobs together"
"""How a number is praised that is proven: of one job, and of one among several that share people."""


def weighed(plan: Plan) -> list[str]:
    """A sentence for each goal behind hand-over; the last only where it is not proven."""
    return _told(plan.goals[1:], _others(plan), BEST_TOGETHER if plan.beside else FEWEST)


def weighed_together(plans: Plans) -> list[str]:
    """The same for all jobs together: visits and half-days added up."""
    return _told(plans.behind, sum(map(_others, plans.plans)), FEWEST, " in all")


def _others(plan: Plan) -> int:
    """How many trades come at all; each comes once in any plan."""
    return len({visit.trade for visit in plan.visits if visit.trade != OWN_TRADE})


def _told(goals: Iterable[Goal], others: int, best: str, in_all: str = "") -> list[str]:
    return [text for goal in goals if (text := _sentence(goal, others, best, in_all))]


def _sentence(goal: Goal, others: int, best: str, in_all: str) -> str:
    if goal.name == TOLD_VISITS_MOVED:
        return f"{_moves(goal.value)}{_at_least(goal, 0, best) if goal.value else ''}"
    if goal.name in AWAITED:
        return f"{goal.name}: {_half_day_sooner(goal, best)}"
    if goal.name == VISITS:
        return f"others come {_times(goal.value)}{in_all}{_at_least(goal, others, best)}" if goal.value else ""
    if goal.name == SOONEST_GOAL and not goal.proven:
        return "that all else is as early as it can be is not proven"
    return ""


def _half_day_sooner(goal: Goal, best: str) -> str:
    if best == BEST_TOGETHER and goal.proven:
        return best
    return f"a half-day sooner is {'not possible' if goal.proven else 'not ruled out'}"


def _moves(count: int) -> str:
    if not count:
        return "no visit moves that people were told of"
    return "one visit moves that people were told of" if count == 1 else f"{count} visits move that people were told of"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _at_least(goal: Goal, known: int, best: str) -> str:
    """`known`: so many are needed in any plan; a bound that says no more than that is not told."""
    if goal.proven:
        return f", {best}"
    return f"; that {goal.bound} might do is not ruled out" if goal.bound > known else ", not known to be the fewest"
