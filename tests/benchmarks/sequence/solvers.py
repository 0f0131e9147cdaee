"""The solvers that are compared: ours, a plain cumulative model, and pyjobshop if it is installed."""

from __future__ import annotations

import importlib.util
import time
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from as_network import ZERO, names, network
from ortools.sat.python import cp_model
from published import Project

from sequencer.solve import NoAnswer, solve
from sequencer.solve.solve import HAND_OVER_EFFORT

WORK_A_SECOND = 0.6
"""Deterministic seconds the solver spends in a second of a processor on hard instances, about: our limits count work.
0.5 to 0.9 seen on a quiet machine, 0.1 to 0.3 where others use its caches too."""


@dataclass(frozen=True)
class Outcome:
    """`starts` [clock units] of the best plan, None without one; `bound`: no plan is shorter [clock units].

    `infeasible`: proven that there is none. `seconds`: building and solving, by the clock.
    """

    starts: list[int] | None
    bound: int
    infeasible: bool
    seconds: float

    @property
    def makespan(self) -> int | None:
        """The start of the last activity."""
        return None if self.starts is None else self.starts[-1]

    @property
    def decided(self) -> bool:
        """Proven best, or proven that there is none."""
        return self.infeasible or (self.starts is not None and self.bound >= self.starts[-1])


Solver = Callable[[Project, float, int], Outcome]


def available(work: float = WORK_A_SECOND) -> dict[str, Solver]:
    """The solvers by name; each takes an instance, a limit [s] and a number of workers (ours always takes one).

    `work`: deterministic seconds of ours in a second of the limit.
    """
    found: dict[str, Solver] = {"ours": partial(ours, work=work), "plain": plain}
    if importlib.util.find_spec("pyjobshop"):
        found["pyjobshop"] = with_pyjobshop
    return found


def ours(project: Project, limit: float, workers: int, work: float = WORK_A_SECOND) -> Outcome:
    """Through the network."""
    began = time.perf_counter()
    try:
        answer = solve(network(project), effort=limit * work / HAND_OVER_EFFORT)
    except NoAnswer as none:
        return Outcome(None, 0, none.certain, time.perf_counter() - began)
    seconds = time.perf_counter() - began
    if answer.interrupted:
        raise KeyboardInterrupt
    starts = [answer.starts[id] - ZERO for id in names(project)]
    if starts[-1] != answer.goals[0].value - 1:
        raise AssertionError("the value of the first goal is not the hand-over of the plan")
    return Outcome(starts, answer.goals[0].bound - 1, False, seconds)


def plain(project: Project, limit: float, workers: int) -> Outcome:
    """Fixed intervals, one cumulative a resource, no start and no bound given; closed units are left out."""
    began = time.perf_counter()
    model = cp_model.CpModel()
    start = [model.new_int_var(0, project.longest, "") for _ in project.activities]
    model.add(start[0] == 0)
    for lag in project.lags:
        model.add(start[lag.after] >= start[lag.before] + lag.units)
    intervals = [
        model.new_fixed_size_interval_var(var, activity.length, "")
        for var, activity in zip(start, project.activities, strict=True)
    ]
    for resource, capacity in enumerate(project.capacities):
        takers = [number for number, activity in enumerate(project.activities) if activity.needs[resource]]
        needs = [project.activities[number].needs[resource] for number in takers]
        model.add_cumulative([intervals[number] for number in takers], needs, capacity)
    model.minimize(start[-1])
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit
    solver.parameters.num_workers = workers
    solver.parameters.catch_sigint_signal = False
    status = solver.status_name(solver.solve(model))
    if status not in ("OPTIMAL", "FEASIBLE"):
        return Outcome(None, 0, status == "INFEASIBLE", time.perf_counter() - began)
    found = [solver.value(var) for var in start]
    return _on_the_clock(project, found, round(solver.best_objective_bound), time.perf_counter() - began)


def with_pyjobshop(project: Project, limit: float, workers: int) -> Outcome:
    """The same model said to pyjobshop."""
    from pyjobshop import Model, SolveStatus

    began = time.perf_counter()
    model = Model()
    resources = [model.add_renewable(capacity) for capacity in project.capacities]
    tasks = [model.add_task(latest_start=0 if number == 0 else project.longest) for number in range(project.sink + 1)]
    for task, activity in zip(tasks, project.activities, strict=True):
        model.add_mode(task, list[Any](resources), activity.length, list(activity.needs))
    for lag in project.lags:
        model.add_start_before_start(tasks[lag.before], tasks[lag.after], lag.units)
    result = model.solve("ortools", time_limit=limit, display=False, num_workers=workers, catch_sigint_signal=False)
    seconds = time.perf_counter() - began
    if result.status not in (SolveStatus.OPTIMAL, SolveStatus.FEASIBLE):
        return Outcome(None, 0, result.status == SolveStatus.INFEASIBLE, seconds)
    return _on_the_clock(project, [task.start for task in result.best.tasks], round(result.lower_bound), seconds)


def _on_the_clock(project: Project, worked: list[int], bound: int, seconds: float) -> Outcome:
    """From units of working time: work starts in the next open unit, what takes no time when work before it ends."""
    starts = [
        project.open_units[begin] if project.open_units and activity.length else project.clock(begin)
        for begin, activity in zip(worked, project.activities, strict=True)
    ]
    return Outcome(starts, project.clock(bound), False, seconds)
