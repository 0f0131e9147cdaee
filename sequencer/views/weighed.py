"""What was weighed among the plans that hand over in the same half-day, in the order it decided, and how surely."""

from __future__ import annotations

from sequencer.plan import Goal, Plan
from sequencer.terms.goal import AWAITED, SOONEST_GOAL, TOLD_VISITS_MOVED, VISITS


def weighed(plan: Plan) -> list[str]:
    """A sentence for each goal behind hand-over; the last only where it is not proven."""
    return [text for goal in plan.goals[1:] if (text := _sentence(goal))]


def _sentence(goal: Goal) -> str:
    if goal.name == TOLD_VISITS_MOVED:
        return f"{_moves(goal.value)}{_at_least(goal) if goal.value else ''}"
    if goal.name in AWAITED:
        return f"{goal.name}: a half-day sooner is {'not possible' if goal.proven else 'not ruled out'}"
    if goal.name == VISITS:
        return f"others come {_times(goal.value)}{_at_least(goal)}" if goal.value else ""
    if goal.name == SOONEST_GOAL and not goal.proven:
        return "that all else is as early as it can be is not proven"
    return ""


def _moves(count: int) -> str:
    if not count:
        return "no visit moves that people were told of"
    return "one visit moves that people were told of" if count == 1 else f"{count} visits move that people were told of"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _at_least(goal: Goal) -> str:
    return ", the fewest possible" if goal.proven else f"; that {goal.bound} might do is not ruled out"
