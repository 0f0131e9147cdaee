"""The search of CP-SAT for several jobs: a plan with less of one measure, those before it kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ortools.sat.python import cp_model

from sequencer.solve.cp_model import Model
from sequencer.solve.encode import push_up
from sequencer.solve.measures import Bounded, Measure, last_places
from sequencer.solve.problem import Problem
from sequencer.solve.search import PLAN, Found, Places, new_solver, places_of, run
from sequencer.solve.trim import Trimmed, trim


def minimise(
    problem: Problem, measure: Measure, kept: Sequence[Bounded], first: Mapping[int, int], places: Places, effort: float
) -> Found:
    """A plan with less of a measure than the plan at hand, none of the `kept` ones above its bound."""
    known = measure.of(places)
    bounded = [*kept, (measure, known - 1)]
    trimmed = _trimmed(problem, bounded, first)
    if trimmed is None:
        return Found(places, known, known, certain=True)
    model = _model(problem, trimmed, bounded, first)
    model.cp.minimize(_total(model, measure))
    solver = new_solver(effort)
    status = run(solver, model)
    if status in PLAN:
        better = places_of(model, solver)
        value = measure.of(better)
        bound = value if status == "OPTIMAL" else max(measure.least(first), round(solver.best_objective_bound))
        return Found(better, value, bound, interrupted=model.interrupted)
    if status == "INFEASIBLE":
        return Found(places, known, known, certain=True)
    bound = max(measure.least(first), min(known, round(solver.best_objective_bound)))
    return Found(places, known, bound, interrupted=model.interrupted)


def _trimmed(problem: Problem, bounded: Sequence[Bounded], first: Mapping[int, int]) -> Trimmed | None:
    last = last_places(problem, bounded, first)
    if last is None:
        return None
    latest = max(int(problem.starts[task][place]) for task, place in last.items())
    over = problem.starts[problem.hand_over]
    return trim(problem, min(int(over.searchsorted(latest)), len(over) - 1), last)


def _model(problem: Problem, trimmed: Trimmed, bounded: Sequence[Bounded], first: Mapping[int, int]) -> Model:
    """The model with every measure within its bound, and no hand-over before the first place not ruled out."""
    model = Model(problem, trimmed)
    for task, place in first.items():
        start = model.start[task]
        if trimmed.first[task] < place:
            model.cp.add(start.count >= int(start.counts[place - trimmed.first[task]]))
    for measure, most in bounded:
        model.cp.add(_total(model, measure) <= most)
    return model


def _total(model: Model, measure: Measure) -> cp_model.LinearExprT:
    parts = []
    for task, values in measure.parts:
        here = model.kept(task, values)
        part = model.cp.new_int_var(int(here[0]), int(here[-1]), "")
        push_up(model.start[task], part, here)
        parts.append(part)
    return sum(parts)
