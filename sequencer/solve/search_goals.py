"""The searches after hand-over: the goals behind it, one before the next, then everything as early as it can be.

What the plan at hand meets at its least is kept; the rest is one search in which each goal counts more than all that
stand behind it. The model of that search serves the last one too.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sequencer.solve.answer import GoalReached
from sequencer.solve.between import Range, met_at_least
from sequencer.solve.cp_goals import count_of
from sequencer.solve.cp_model import Model
from sequencer.solve.goals import SlotGoal
from sequencer.solve.search import PLAN, cost_of, new_solver, places_of, run
from sequencer.solve.trim import Trimmed
from sequencer.terms.goal import SOONEST_GOAL


@dataclass(frozen=True)
class Settled:
    """A plan, and how far it meets each goal. `interrupted`: somebody stopped a search."""

    places: list[int]
    goals: tuple[GoalReached, ...]
    interrupted: bool = False


def settle(
    within: Range, places: list[int], efforts: tuple[float, float], told: Callable[[str], None]
) -> Settled:
    """The best plan found of a range that a plan at hand lies in, goal by goal.

    `efforts`: limits of the search for the goals, and of that for the starts [deterministic seconds of the solver].
    """
    left, goals = met_at_least(within, places)
    model = model_of(left)
    rest = within.problem.goals[len(goals) :]
    if rest:
        told(f"weighing {', '.join(goal.name for goal in rest)}")
        found = _minimise_goals(model, rest, places, efforts[0])
        places, goals = found.places, (*goals, *found.goals)
        if found.interrupted:
            return Settled(places, goals, interrupted=True)
    told("moving everything as early as it can be")
    soonest = _minimise_starts(model, places, efforts[1])
    return Settled(soonest.places, (*goals, *soonest.goals), soonest.interrupted)


def model_of(within: Range) -> Model:
    """The model of the plans of a range, the limits of goals included."""
    model = Model(within.problem, within.trimmed())
    for goal, limit in zip(within.problem.goals, within.limits, strict=False):
        if goal.most(model.trimmed) > limit:
            model.cp.add(count_of(model, goal) <= limit)
    return model


def _minimise_goals(model: Model, goals: Sequence[SlotGoal], places: list[int], effort: float) -> Settled:
    """The best plan found by these goals; the model keeps to what it counts for each from then on."""
    weights = _weights(goals, model.trimmed)
    least = [goal.least(model.trimmed) for goal in goals]
    counts = [count_of(model, goal) for goal in goals]
    model.cp.minimize(sum(w * (count - low) for w, count, low in zip(weights, counts, least, strict=True)))
    status, plans, objective = _searched(model, places, effort)
    best = min(plans, key=lambda plan: [goal.value(plan) for goal in goals])
    values = [goal.value(best) for goal in goals]
    bounds = values if status == "OPTIMAL" else _bounds(objective, weights, least, values)
    for count, value in zip(counts, values, strict=True):
        model.cp.add(count <= value)
    reached = (GoalReached(g.name, v, b) for g, v, b in zip(goals, values, bounds, strict=True))
    return Settled(best, tuple(reached), model.interrupted)


def _minimise_starts(model: Model, places: list[int], effort: float) -> Settled:
    """The best plan found by the weighted sum of starts; value and bound are weighted slots."""
    problem = model.problem
    model.minimise_starts()
    status, plans, objective = _searched(model, places, effort)
    best = min(plans, key=lambda plan: cost_of(problem, plan))
    floor = sum(w * int(s.starts[0]) for w, s in zip(problem.weights, model.start, strict=True))
    value = cost_of(problem, best)
    reached = GoalReached(SOONEST_GOAL, value, value if status == "OPTIMAL" else min(value, floor + max(0, objective)))
    return Settled(best, (reached,), model.interrupted)


def _searched(model: Model, places: list[int], effort: float) -> tuple[str, list[list[int]], int]:
    """One search from a plan at hand: the solver's word for its end, the plans there are then, the sum's bound."""
    model.hint(places)
    solver = new_solver(effort)
    status = run(solver, model)
    found = [places_of(model, solver)] if status in PLAN else []
    model.cp.clear_objective()  # type: ignore[no-untyped-call]
    model.cp.clear_hints()  # type: ignore[no-untyped-call]
    return status, [places, *found], round(solver.best_objective_bound)


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
