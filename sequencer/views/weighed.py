"""What was weighed among the plans that hand over in the same half-day, in the order it decided, and how surely."""

from __future__ import annotations

from sequencer.plan import Goal, Plan
from sequencer.terms.goal import AWAITED, SOONEST_GOAL, TOLD_VISITS_MOVED, VISITS
from sequencer.terms.words import OWN_TRADE


def weighed(plan: Plan) -> list[str]:
    """A sentence for each goal behind hand-over; the last only where it is not proven."""
    others = len({visit.trade for visit in plan.visits if visit.trade != OWN_TRADE})
    return [text for goal in plan.goals[1:] if (text := _sentence(goal, others))]


def _sentence(goal: Goal, others: int) -> str:
    """`others`: how many trades come at all; each comes once in any plan."""
    if goal.name == TOLD_VISITS_MOVED:
        return f"{_moves(goal.value)}{_at_least(goal, 0) if goal.value else ''}"
    if goal.name in AWAITED:
        return f"{goal.name}: a half-day sooner is {'not possible' if goal.proven else 'not ruled out'}"
    if goal.name == VISITS:
        return f"others come {_times(goal.value)}{_at_least(goal, others)}" if goal.value else ""
    if goal.name == SOONEST_GOAL and not goal.proven:
        return "that all else is as early as it can be is not proven"
    return ""


def _moves(count: int) -> str:
    if not count:
        return "no visit moves that people were told of"
    return "one visit moves that people were told of" if count == 1 else f"{count} visits move that people were told of"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _at_least(goal: Goal, known: int) -> str:
    """`known`: so many are needed in any plan; a bound that says no more than that is not told."""
    if goal.proven:
        return ", the fewest possible"
    return f"; that {goal.bound} might do is not ruled out" if goal.bound > known else ", not known to be the fewest"
