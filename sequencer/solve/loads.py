"""What each trade has to do against the hours it is there: a bound that sees nights and weekends."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import AtMost, Network, OneAtATime, Task
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed, Trimmer
from sequencer.solve.widths import base_of, widths
from sequencer.terms.minute import Minute

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Load:
    """Tasks that share hands: their numbers and work [hand-minutes].

    `clocks`: work clocks, each with the places among the tasks of those it holds for. `openings`: the widest of theirs.
    `cell` [min]: hands are counted at every so many minutes from `base`; `work` and `ends` are in whole cells.
    """

    hands: int
    tasks: tuple[int, ...]
    work: Ints
    clocks: tuple[tuple[WorkClock, Ints], ...]
    openings: Openings
    cell: int
    base: Minute

    def ends(self, starts: Ints) -> Ints:
        """When the hands of each task are free again for a start of each [Minute]."""
        ends = np.zeros_like(starts)
        for clock, places in self.clocks:
            ends[places] = clock.ends(starts[places])
        return self.base - (self.base - ends) // self.cell * self.cell

    def least(self, start: Minute) -> Minute:
        """When all of this is done at the soonest, if nothing but hands and hours counts."""
        share = -(-int(self.work.sum()) // self.hands)
        return int(self.openings.advance(np.array([start], dtype=np.int64), share)[0])


def loads(network: Network) -> list[Load]:
    """A load for every group of plain claims whose tasks are worked in the same trade's hours."""
    number = {id: place for place, id in enumerate(network.tasks)}
    groups = [(1, rule.claims) for rule in network.of(OneAtATime)] + [(r.n, r.claims) for r in network.of(AtMost)]
    width, base = widths(network), base_of(network)
    found = []
    for hands, claims in groups:
        if any(claim.until is not None or claim.last is not None for claim in claims):
            continue
        tasks = [network.tasks[claim.task] for claim in claims]
        widest = max((task.work.openings for task in tasks), key=lambda openings: int(openings.before[-1]))
        if all(_inside(task.work.openings, widest) for task in tasks):
            cell, minutes = _in_cells(tasks, widest, width, base)
            work = [each * claim.amount for each, claim in zip(minutes, claims, strict=True)]
            numbers = tuple(number[task.id] for task in tasks)
            found.append(Load(hands, numbers, np.array(work, dtype=np.int64), _clocks(tasks), widest, cell, base))
    return found


def _clocks(tasks: Sequence[Task]) -> tuple[tuple[WorkClock, Ints], ...]:
    likes: dict[Hashable, list[int]] = defaultdict(list)
    for place, task in enumerate(tasks):
        likes[task.work.alike].append(place)
    return tuple((tasks[places[0]].work, np.array(places, dtype=np.int64)) for places in likes.values())


def _in_cells(tasks: Sequence[Task], widest: Openings, width: Mapping[str, int], base: Minute) -> tuple[int, list[int]]:
    """The cell that shows most work [min], and the open minutes of each task's cells.

    Who is at work when a cell begins takes up a hand there. A task whose starts all lie on edges of cells is at work
    when its last cell begins, however little of that it needs; any other takes up as many as it fills at least. Where
    an opening or a close lies inside a cell nothing is known, so a cell is then a minute.
    """
    hours = {widest, *(task.work.openings for task in tasks)}
    edges = [moments - base for openings in hours for moments in (openings.opens, openings.closes)]
    found = []
    for cell in sorted({1, *(width[task.id] for task in tasks)}):
        if not any(np.any(moments % cell) for moments in edges):
            up = [cell - 1 if width[task.id] % cell == 0 else 0 for task in tasks]
            found.append((cell, [(_least(t) + more) // cell * cell for t, more in zip(tasks, up, strict=True)]))
    return max(found, key=lambda cells: sum(cells[1]))


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
        if may_be_by(trimmer, half_days[middle], all_loads):
            high = middle
        else:
            low = middle + 1
    return int(half_days[low])


def may_be_by(trimmer: Trimmer, half_day: int, all_loads: list[Load]) -> bool:
    """True if neither path nor load rules out hand-over in a half-day or before."""
    problem = trimmer.problem
    last = problem.last_place(half_day)
    trimmed = trimmer.trim(last)
    return trimmed is not None and not any(_overloaded(problem, trimmed, load) for load in all_loads)


def _overloaded(problem: Problem, trimmed: Trimmed, load: Load) -> bool:
    """True if in some stretch more work must be done than there are hands and hours for."""
    begins, last = (_minutes(problem, load.tasks, places) for places in (trimmed.first, trimmed.last))
    ends = load.ends(last)
    order = np.argsort(ends, kind="stable")
    done = load.openings.worked(ends[order])
    for begin in np.unique(begins).tolist():
        must = np.cumsum(np.where(begins[order] >= begin, load.work[order], 0))
        there = done - load.openings.worked(np.array([begin]))[0]
        if bool(np.any((must > load.hands * there) & (must > 0))):
            return True
    return False


def _minutes(problem: Problem, tasks: Sequence[int], places: Sequence[int]) -> Ints:
    starts = [problem.lists.of(problem.starts[task])[places[task]] for task in tasks]
    return problem.base + problem.slot * np.array(starts, dtype=np.int64)
