"""The searches after hand-over: the goals behind it, one before the next, then everything as early as it can be."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.solve.answer import GoalReached
from sequencer.solve.between import Range, Settled
from sequencer.solve.cp_goals import count_of
from sequencer.solve.cp_model import Model
from sequencer.solve.goals import SlotGoal
from sequencer.solve.search import PLAN, Found, cost_of, new_solver, places_of, run
from sequencer.solve.trim import Trimmed


def model_of(within: Range) -> Model:
    """The model of the plans of a range, the limits of goals included."""
    model = Model(within.problem, within.trimmed())
    for goal, limit in zip(within.problem.goals, within.limits, strict=False):
        if goal.most(model.trimmed) > limit:
            model.cp.add(count_of(model, goal) <= limit)
    return model


def minimise_goals(within: Range, places: list[int], effort: float) -> Settled:
    """The best plan found by the goals that the range does not limit yet, and what it counts for these."""
    model = model_of(within)
    goals = within.problem.goals[len(within.limits) :]
    weights = _weights(goals, model.trimmed)
    least = [goal.least(model.trimmed) for goal in goals]
    model.cp.minimize(
        sum(w * (count_of(model, goal) - low) for w, goal, low in zip(weights, goals, least, strict=True))
    )
    model.hint(places)
    solver = new_solver(effort)
    status = run(solver, model)
    found = [places_of(model, solver)] if status in PLAN else []
    best = min([places, *found], key=lambda plan: [goal.value(plan) for goal in goals])
    values = [goal.value(best) for goal in goals]
    bounds = values if status == "OPTIMAL" else _bounds(round(solver.best_objective_bound), weights, least, values)
    reached = (GoalReached(g.name, v, b) for g, v, b in zip(goals, values, bounds, strict=True))
    return Settled(best, tuple(reached), model.interrupted)


def minimise_starts(within: Range, places: list[int], effort: float) -> Found:
    """The weighted sum of starts, in a range that a plan at hand lies in; value and bound are weighted slots."""
    problem, model = within.problem, model_of(within)
    model.minimise_starts()
    model.hint(places)
    solver = new_solver(effort)
    status = run(solver, model)
    floor = sum(w * int(s.starts[0]) for w, s in zip(problem.weights, model.start, strict=True))
    if status not in PLAN:
        return Found(places, cost_of(problem, places), floor, interrupted=model.interrupted)
    better = min(places_of(model, solver), places, key=lambda found: cost_of(problem, found))
    value = cost_of(problem, better)
    bound = value if status == "OPTIMAL" else floor + round(solver.best_objective_bound)
    return Found(better, value, bound, interrupted=model.interrupted)


def _weights(goals: Sequence[SlotGoal], trimmed: Trimmed) -> list[int]:
    """Weights by which one of a goal is more than all that the goals behind it can come to."""
    weights = [1]
    for goal in goals[:0:-1]:
        weights.append(weights[-1] * (goal.most(trimmed) - goal.least(trimmed) + 1))
    return weights[::-1]


def _bounds(objective: int, weights: list[int], least: list[int], values: list[int]) -> list[int]:
    """What the bound of the sum leaves of each goal: a goal behind one that is not proven has its own least alone."""
    found, left = [], max(0, objective)
    for weight, low, value in zip(weights, least, values, strict=True):
        bound = min(value, low + left // weight)
        found.append(bound)
        left = max(0, left - weight * (bound - low)) if bound == value else 0
    return found
