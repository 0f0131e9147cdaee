"""Work that shares hands, and the hours they are there: nights and weekends are seen."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import AtMost, Claim, Network, OneAtATime, Task
from sequencer.solve.problem import Problem
from sequencer.solve.widths import base_of, widths
from sequencer.terms.minute import Minute

Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Load:
    """Tasks that share hands: their numbers, work [hand-minutes] and the hands each takes.

    `clocks`: work clocks, each with the places among the tasks of those it holds for. `openings`: the widest of theirs.
    `cell` [min]: hands are counted at every so many minutes from `base`; `work` and `ends` are in whole cells.
    """

    hands: int
    tasks: tuple[int, ...]
    work: Ints
    amounts: Ints
    clocks: tuple[tuple[WorkClock, Ints], ...]
    openings: Openings
    cell: int
    base: Minute

    def ends(self, starts: Ints) -> Ints:
        """When the hands of each task are free again for a start of each [Minute]."""
        ends = np.zeros_like(starts)
        for clock, places in self.clocks:
            ends[places] = clock.ends(starts[places])
        return self._next_cell(ends)

    def ends_of(self, task: int, starts: Ints) -> Ints:
        """The same for starts of one of its tasks."""
        place = self.tasks.index(task)
        clock = next(clock for clock, places in self.clocks if place in places)
        return self._next_cell(clock.ends(starts))

    def counted(self, moments: Ints) -> Ints:
        """Open minutes of the cells that begin before each moment [min]: a stretch takes up the difference of two."""
        return self.openings.worked(self._next_cell(moments))

    def done(self, start: Minute, work: Ints) -> Ints:
        """The soonest the hands can have done so much from a start on, as `ends` counts ends [Minute]."""
        begun = int(self._next_cell(np.array([start], dtype=np.int64))[0])
        shares = -(-work // self.hands)
        return np.array(
            [int(self.openings.advance(np.array([begun]), int(share))[0]) for share in shares], dtype=np.int64
        )

    def minutes(self, problem: Problem, places: Sequence[int]) -> Ints:
        """The start of each task at its place among the starts of a problem [Minute]."""
        starts = [problem.lists.of(problem.starts[task])[places[task]] for task in self.tasks]
        return problem.base + problem.slot * np.array(starts, dtype=np.int64)

    def _next_cell(self, moments: Ints) -> Ints:
        return self.base - (self.base - moments) // self.cell * self.cell

    def least(self, start: Minute) -> Minute:
        """When all of this is done at the soonest, if nothing but hands and hours counts."""
        share = -(-int(self.work.sum()) // self.hands)
        return int(self.openings.advance(np.array([start], dtype=np.int64), share)[0])


def loads(network: Network) -> list[Load]:
    """A load for every group of plain claims whose tasks are worked in the same trade's hours."""
    number = {id: place for place, id in enumerate(network.tasks)}
    width, base = widths(network), base_of(network)
    found = []
    for hands, claims in plain_groups(network):
        tasks = [network.tasks[claim.task] for claim in claims]
        widest = max((task.work.openings for task in tasks), key=lambda openings: int(openings.before[-1]))
        if all(_inside(task.work.openings, widest) for task in tasks):
            amounts = [claim.amount for claim in claims]
            cells = _in_cells(tasks, widest, width, base)
            found.append(load_of(number, hands, tasks, amounts, widest, base, cells))
    return found


def plain_groups(network: Network) -> list[tuple[int, tuple[Claim, ...]]]:
    """The claims that share so many hands, of groups whose claims last as long as their task."""
    groups = [(1, rule.claims) for rule in network.of(OneAtATime)] + [(r.n, r.claims) for r in network.of(AtMost)]
    return [(n, them) for n, them in groups if all(claim.until is None and claim.last is None for claim in them)]


def load_of(
    number: Mapping[str, int],
    hands: int,
    tasks: Sequence[Task],
    amounts: Sequence[int],
    openings: Openings,
    base: Minute,
    cells: tuple[int, list[int]] | None = None,
) -> Load:
    """The load of some tasks, each with the hands it takes, in openings that theirs lie in.

    `cells`: their width [min], and the open minutes each task takes up; by default single minutes.
    """
    cell, minutes = cells or (1, [_least(task) for task in tasks])
    taken = np.array(amounts, dtype=np.int64)
    work = np.array(minutes, dtype=np.int64) * taken
    numbers = tuple(number[task.id] for task in tasks)
    return Load(hands, numbers, work, taken, _clocks(tasks), openings, cell, base)


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
