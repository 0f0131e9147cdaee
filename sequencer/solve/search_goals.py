"""The searches after hand-over: the goals behind it, one before the next, then everything as early as it can be.

What the plan at hand meets at its least is kept; the rest is one search in which each goal counts more than all that
stand behind it. Where that does not end soon, one search a goal, on the same model; what is reached is kept on.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from ortools.sat.python import cp_model

from sequencer.solve.answer import GoalReached
from sequencer.solve.between import Range, met_at_least
from sequencer.solve.cp_goals import count_of
from sequencer.solve.cp_model import Model
from sequencer.solve.goals import SlotGoal
from sequencer.solve.problem import Problem
from sequencer.solve.search import PLAN, cost_of, new_solver, places_of, run
from sequencer.terms.goal import SOONEST_GOAL

FARTHEST = 1 << 60
"""Sums up to here the solver counts without losing its own room for them."""

AT_ONCE_EFFORT, GOAL_EFFORT, SOONEST_EFFORT = 3.0, 1.2, 4.0
"""Limits of the searches: for all goals at once, for one goal, for the starts [deterministic seconds of the solver]."""

LinearExpr: TypeAlias = cp_model.LinearExprT


@dataclass(frozen=True)
class Settled:
    """A plan, and how far it meets each goal. `interrupted`: somebody stopped a search."""

    places: list[int]
    goals: tuple[GoalReached, ...]
    interrupted: bool = False


def settle(within: Range, places: list[int], effort: float, told: Callable[[str], None]) -> Settled:
    """The best plan found of a range that a plan at hand lies in, goal by goal, everything as early as it can be last.

    `effort` scales the limits. What is proven of a goal holds among the plans that count as little as this one for each
    goal before it.
    """
    left, goals = met_at_least(within, places)
    model = model_of(left)
    rest = within.problem.goals[len(goals) :]
    if rest:
        told(f"weighing {', '.join(goal.name for goal in rest)}")
        counts = [count_of(model, goal) for goal in rest]
        status, places = _all_at_once(model, rest, counts, places, AT_ONCE_EFFORT * effort)
        if status == "OPTIMAL":
            met = (GoalReached(goal.name, value, value) for goal in rest for value in [goal.value(places)])
            cost = cost_of(model.problem, places)
            return Settled(places, (*goals, *met, GoalReached(SOONEST_GOAL, cost, cost)), model.interrupted)
        for goal, count in zip(rest, counts, strict=True):
            if not model.interrupted:
                places, reached = _minimise(model, goal, count, rest, places, GOAL_EFFORT * effort)
                goals = (*goals, reached)
        if model.interrupted:
            return Settled(places, _counted(model.problem, goals, places), interrupted=True)
    told("moving everything as early as it can be")
    places, reached = _minimise_starts(model, places, SOONEST_EFFORT * effort)
    return Settled(places, (*_counted(model.problem, goals, places), reached), model.interrupted)


def _counted(problem: Problem, reached: Iterable[GoalReached], places: list[int]) -> tuple[GoalReached, ...]:
    """Goals as a plan counts them in the end: one that was not proven may come out better by a search behind it."""
    values = {goal.name: goal.value(places) for goal in problem.goals}
    return tuple(replace(one, value=values[one.name]) for one in reached)


def model_of(within: Range) -> Model:
    """The model of the plans of a range, the limits of goals included."""
    model = Model(within.problem, within.trimmed())
    for goal, limit in zip(within.problem.goals, within.limits, strict=False):
        if goal.most(model.trimmed) > limit:
            model.cp.add(count_of(model, goal) <= limit)
    return model


def _all_at_once(
    model: Model, goals: Sequence[SlotGoal], counts: list[LinearExpr], places: list[int], effort: float
) -> tuple[str, list[int]]:
    """One search for all goals and the starts, each counting more than all that stand behind it: quick where it ends.

    Left out where the solver could not count that far.
    """
    problem, trimmed = model.problem, model.trimmed
    spread = [goal.most(trimmed) - goal.least(trimmed) for goal in goals]
    late = sum(w * int(v.starts[-1] - v.starts[0]) for w, v in zip(problem.weights, model.start, strict=True))
    weights = weights_of([*spread, late])
    if weights[0] * (spread[0] + 1) > FARTHEST:
        return "UNKNOWN", places
    least = [goal.least(trimmed) for goal in goals]
    terms = [w * (count - low) for w, count, low in zip(weights[:-1], counts, least, strict=True)]
    model.cp.minimize(sum([*terms, model.starts_sum()]))
    status, plans, _ = _searched(model, places, effort)
    best = min(plans, key=lambda plan: (*(goal.value(plan) for goal in goals), cost_of(problem, plan)))
    return status, best


def weights_of(spread: Sequence[int]) -> list[int]:
    """Weights by which one of a goal is more than the spreads of all goals behind it come to."""
    weights = [1]
    for width in spread[:0:-1]:
        weights.append(weights[-1] * (width + 1))
    return weights[::-1]


def _minimise(
    model: Model, goal: SlotGoal, count: LinearExpr, goals: Sequence[SlotGoal], places: list[int], effort: float
) -> tuple[list[int], GoalReached]:
    """The best plan found by one goal; the model keeps to what it counts from then on."""
    least = goal.least(model.trimmed)
    bound = value = goal.value(places)
    if value > least:
        model.cp.minimize(count)
        status, plans, objective = _searched(model, places, effort)
        places = min(plans, key=lambda plan: [each.value(plan) for each in goals])
        value = goal.value(places)
        bound = value if status == "OPTIMAL" else min(value, max(least, objective))
    model.cp.add(count <= value)
    return places, GoalReached(goal.name, value, bound)


def _minimise_starts(model: Model, places: list[int], effort: float) -> tuple[list[int], GoalReached]:
    """The best plan found by the weighted sum of starts; value and bound are weighted slots."""
    problem = model.problem
    model.minimise_starts()
    status, plans, objective = _searched(model, places, effort)
    best = min(plans, key=lambda plan: cost_of(problem, plan))
    floor = sum(w * int(s.starts[0]) for w, s in zip(problem.weights, model.start, strict=True))
    value = cost_of(problem, best)
    bound = value if status == "OPTIMAL" else min(value, floor + max(0, objective))
    return best, GoalReached(SOONEST_GOAL, value, bound)


def _searched(model: Model, places: list[int], effort: float) -> tuple[str, list[list[int]], int]:
    """One search from a plan at hand: the solver's word for its end, the plans there are then, the sum's bound."""
    model.hint(places)
    solver = new_solver(effort, model)
    status = run(solver, model)
    found = [places_of(model, solver)] if status in PLAN else []
    model.cp.clear_objective()  # type: ignore[no-untyped-call]
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    return status, [places, *found], round(solver.best_objective_bound)
