"""What each trade has to do against the hours it is there: a bound that sees nights and weekends."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings
from sequencer.network.model import AtMost, Network, OneAtATime, Task
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed, Trimmer

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Load:
    """Tasks that share hands: their numbers, work [hand-minutes] and hours; `openings` are the widest among them."""

    hands: int
    tasks: tuple[int, ...]
    work: Ints
    clocks: tuple[Task, ...]
    openings: Openings


def loads(network: Network) -> list[Load]:
    """A load for every group of plain claims whose tasks are worked in the same trade's hours."""
    number = {id: place for place, id in enumerate(network.tasks)}
    groups = [(1, rule.claims) for rule in network.of(OneAtATime)] + [(r.n, r.claims) for r in network.of(AtMost)]
    found = []
    for hands, claims in groups:
        if any(claim.until is not None or claim.last is not None for claim in claims):
            continue
        tasks = [network.tasks[claim.task] for claim in claims]
        widest = max((task.work.openings for task in tasks), key=lambda openings: int(openings.before[-1]))
        if all(_inside(task.work.openings, widest) for task in tasks):
            work = [_least(task) * claim.amount for task, claim in zip(tasks, claims, strict=True)]
            numbers = tuple(number[task.id] for task in tasks)
            found.append(Load(hands, numbers, np.array(work, dtype=np.int64), tuple(tasks), widest))
    return found


def _least(task: Task) -> int:
    """Open minutes a task takes at least; who takes the window of a day whole, however short it is, counts nothing."""
    return 0 if task.work.whole_window else task.work.minutes


def _inside(some: Openings, widest: Openings) -> bool:
    """True if some openings lie in others: all their open time is open there."""
    if some is widest:
        return True
    return bool(np.all(widest.worked(some.closes) - widest.worked(some.opens) == some.closes - some.opens))


def least_half_day(problem: Problem, known: int, all_loads: list[Load]) -> int:
    """The first half-day of hand-over that neither path nor load rules out, at most `known`, that of a plan at hand."""
    half_days = np.unique(problem.half_day[problem.half_day <= known]).tolist()
    trimmer = Trimmer(problem)
    low, high = 0, len(half_days) - 1
    while low < high:
        middle = (low + high) // 2
        if _possible(trimmer, half_days[middle], all_loads):
            high = middle
        else:
            low = middle + 1
    return int(half_days[low])


def _possible(trimmer: Trimmer, half_day: int, all_loads: list[Load]) -> bool:
    problem = trimmer.problem
    last = int(np.searchsorted(problem.half_day, half_day, side="right")) - 1
    trimmed = trimmer.trim(last)
    return trimmed is not None and not any(_overloaded(problem, trimmed, load) for load in all_loads)


def _overloaded(problem: Problem, trimmed: Trimmed, load: Load) -> bool:
    """True if in some stretch more work must be done than there are hands and hours for."""
    begins = np.array([_minute(problem, task, trimmed.first[task]) for task in load.tasks], dtype=np.int64)
    last = [_minute(problem, task, trimmed.last[task]) for task in load.tasks]
    ends = np.array(
        [int(clock.work.ends(np.array([at]))[0]) for clock, at in zip(load.clocks, last, strict=True)], dtype=np.int64
    )
    order = np.argsort(ends, kind="stable")
    done = load.openings.worked(ends[order])
    for begin in np.unique(begins).tolist():
        must = np.cumsum(np.where(begins[order] >= begin, load.work[order], 0))
        there = done - load.openings.worked(np.array([begin]))[0]
        if bool(np.any((must > load.hands * there) & (must > 0))):
            return True
    return False


def _minute(problem: Problem, task: int, place: int) -> int:
    return problem.minute(int(problem.starts[task][place]))
