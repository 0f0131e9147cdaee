"""The goals, each one search of CP-SAT on a freshly trimmed model."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from enum import Enum, auto

from ortools.sat.python import cp_model

from sequencer.solve.cp_model import Model
from sequencer.solve.problem import Problem
from sequencer.solve.trim import trim

Places = list[int]

PLAN = ("OPTIMAL", "FEASIBLE")
"""The solver's words for a plan, proven and not."""


LITERALS_A_TASK = 5
"""A model with more order literals than this is searched as it stands. A matter of speed alone."""

HEARS_EVERY = 0.1
"""How often ctrl-c is listened for while the solver searches [s]."""


class Way(Enum):
    """How the earliest hand-over is searched.

    DOWN: from the plan at hand to ever earlier half-days; where it ends at all it mostly ends soonest.
    UP: from the bound, half-day after half-day ruled out; it raises the bound where DOWN says little of it.
    TURNS: many ways in turns, the plan at hand bettered bit by bit beside the search for a proof.
    """

    DOWN = auto()
    UP = auto()
    TURNS = auto()


@dataclass(frozen=True)
class Found:
    """The best plan of a search (None if it found none), its value and the best value not ruled out.

    `certain`: with no plan, that there is none. `interrupted`: somebody stopped the search.
    """

    places: Places | None
    value: int
    bound: int
    certain: bool = False
    interrupted: bool = False


@dataclass(frozen=True)
class Released:
    """Tasks whose firm visit is given up, a plan without them by slots; `fewest`: it is proven that no fewer do."""

    tasks: tuple[int, ...]
    slots: tuple[int, ...]
    fewest: bool


def minimise_half_day(
    problem: Problem, places: Places | None, effort: float, at_least: int = 0, way: Way = Way.DOWN
) -> Found:
    """Goal 1. With a plan at hand only earlier half-days are searched; value and bound are half-days.

    `at_least`: the half-day before which no plan hands over, as far as is known.
    """
    known = None if places is None else problem.half_day_of(places)
    latest = int(problem.half_day[-1]) if known is None else known - (way is not Way.TURNS)
    trimmed = trim(problem, problem.last_place(latest)) if problem.last_place(latest) >= 0 else None
    if trimmed is None:
        return Found(places, latest if known is None else known, latest if known is None else known, certain=True)
    model = Model(problem, trimmed)
    model.minimise_half_day(at_least)
    if way is Way.TURNS and places is not None:
        solver = new_solver(effort)
        model.hint(places)
        solver.parameters.interleave_search = True
    else:
        solver = new_solver(effort, model)
        solver.parameters.linearization_level = 0
        solver.parameters.optimize_with_core = way is Way.UP
        solver.parameters.use_hard_precedences_in_cumulative = way is Way.UP
    status = run(solver, model)
    if status in PLAN:
        better = places_of(model, solver)
        value = problem.half_day_of(better)
        bound = value if status == "OPTIMAL" else _bound(model, solver)
        return Found(better, value, bound, interrupted=model.interrupted)
    value = latest if known is None else known
    if status == "INFEASIBLE":
        return Found(places, value, value, certain=True)
    return Found(places, value, min(value, _bound(model, solver)), interrupted=model.interrupted)


def fewest_released(problem: Problem, effort: float) -> Released | None:
    """The fewest tasks found whose firm visit is given up so that the rest of the visits fit; None if none was found.

    Of sets as few, one whose visits lie later: a visit is the harder to call off the sooner it is. `problem` is laid
    with its bookings left free: a firm visit stands only in `booked`.
    """
    trimmed = trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return None
    model = Model(problem, trimmed)
    kept = {}
    for task, at in problem.booked.items():
        kept[task] = model.cp.new_bool_var("")
        place = int(model.start[task].starts.searchsorted(at))
        if place < len(model.start[task].starts) and int(model.start[task].starts[place]) == at:
            model.cp.add(model.start[task].var == at).only_enforce_if(kept[task])
        else:
            model.cp.add(kept[task] == 0)
    later_first = sorted(kept, key=lambda task: problem.booked[task], reverse=True)
    model.cp.maximize(sum((len(kept) ** 2 + rank) * kept[task] for rank, task in enumerate(later_first)))
    solver = new_solver(effort)
    if run(solver, model) not in PLAN:
        return None
    _go_on(model)
    released = tuple(task for task, literal in kept.items() if not solver.value(literal))
    most_kept = round(solver.best_objective_bound) // len(kept) ** 2
    slots = tuple(solver.value(variable.var) for variable in model.start)
    return Released(released, slots, fewest=len(kept) - len(released) == most_kept)


def plan_exists(problem: Problem, effort: float) -> bool | None:
    """True if some times fit all the rules, False if none do, None if the effort did not tell."""
    trimmed = trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return False
    model = Model(problem, trimmed)
    status = run(new_solver(effort), model)
    _go_on(model)
    return True if status in PLAN else False if status == "INFEASIBLE" else None


def ruled_out(problem: Problem, effort: float) -> bool:
    """True if it is soon proven that no times fit: without first making the model simpler, which takes longer than
    such a proof."""
    trimmed = trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return True
    model, solver = Model(problem, trimmed), new_solver(effort)
    solver.parameters.cp_model_presolve = False
    solver.parameters.linearization_level = 0
    status = run(solver, model)
    _go_on(model)
    return status == "INFEASIBLE"


def new_solver(effort: float, model: Model | None = None) -> cp_model.CpSolver:
    """One worker, a fixed seed, a limit that counts work. Probing and symmetries cost more here than they bring, and so
    does making a `model` simpler that says its calendars and waits through literals."""
    solver = cp_model.CpSolver()
    if model is not None and model.literals() > LITERALS_A_TASK * len(model.start):
        solver.parameters.cp_model_presolve = False
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.symmetry_level = 0
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort
    return solver


def run(solver: cp_model.CpSolver, model: Model) -> str:
    """The solver's word for how its search ended. It searches in a thread of its own, so that ctrl-c is heard."""
    with ThreadPoolExecutor(1) as thread:
        search = thread.submit(lambda: str(solver.status_name(solver.solve(model.cp))))
        while True:
            try:
                return search.result(HEARS_EVERY)
            except TimeoutError:
                continue
            except KeyboardInterrupt:
                model.interrupted = True
                solver.stop_search()


def _go_on(model: Model) -> None:
    """Ends the program's work too where a search was stopped that answers no goal."""
    if model.interrupted:
        raise KeyboardInterrupt


def places_of(model: Model, solver: cp_model.CpSolver) -> Places:
    values = [solver.value(variable.var) for variable in model.start]
    return [int(starts.searchsorted(value)) for starts, value in zip(model.problem.starts, values, strict=True)]


def cost_of(problem: Problem, places: Places) -> int:
    slots = problem.slots(places)
    return sum(weight * slot for weight, slot in zip(problem.weights, slots, strict=True))


def _bound(model: Model, solver: cp_model.CpSolver) -> int:
    """The half-day the solver's bound lies in."""
    half_day = model.half_day()
    reached = round(solver.best_objective_bound)
    if model.counts_starts():
        starts = model.start[model.problem.hand_over].starts
        reached = int(half_day[min(int(starts.searchsorted(reached)), len(starts) - 1)])
    return max(int(half_day[0]), reached)
