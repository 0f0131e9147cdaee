"""Which tasks come after which, and how soon one can begin when another ends late."""

from __future__ import annotations

from collections.abc import Hashable, Iterator

import numpy as np

from sequencer.network.model import Network
from sequencer.solve.problem import Arc, Slots
from sequencer.solve.trim import Trimmer


class Reach:
    """The tasks of a problem that begin after a task has ended, whatever the plan: sets as bits of whole numbers."""

    def __init__(self, network: Network, trimmer: Trimmer) -> None:
        self.problem = trimmer.problem
        self.order = trimmer.order
        self.works = [network.tasks[id].work for id in self.problem.ids]
        self.known: dict[tuple[Hashable, ...], bool] = {}
        self.into: dict[int, list[Arc]] = {}
        after: dict[int, list[int]] = {}
        for arc in self.problem.arcs:
            self.into.setdefault(arc.after, []).append(arc)
            if self._once_ended(arc):
                after.setdefault(arc.before, []).append(arc.after)
        self.bits = [0] * len(self.problem.ids)
        for task in reversed(self.order):
            for other in after.get(task, ()):
                self.bits[task] |= self.bits[other] | 1 << other

    def after(self, task: int) -> Iterator[int]:
        """The tasks that begin after a task has ended."""
        return _numbers(self.bits[task])

    def among(self, task: int, some: int) -> Iterator[int]:
        """Those of them that are among some (bits)."""
        return _numbers(self.bits[task] & some)

    def soonest(self, task: int, other: int) -> Slots:
        """The first place of another task for every place of a task that it follows; the number of places: none."""
        starts, between = self.problem.starts, {task: np.arange(len(self.problem.starts[task]), dtype=np.int64)}
        for each in self.order:
            if each != other and not self.bits[each] >> other & 1:
                continue
            for arc in self.into.get(each, ()):
                if arc.before in between:
                    release = np.append(arc.release, np.iinfo(np.int64).max)[between[arc.before]]
                    place = starts[each].searchsorted(release).astype(np.int64)
                    between[each] = np.maximum(between[each], place) if each in between and each != task else place
        return between[other]

    def _once_ended(self, arc: Arc) -> bool:
        problem, work = self.problem, self.works[arc.before]
        key = (work.alike, id(problem.starts[arc.before]), id(arc.release))
        if key not in self.known:
            ends = work.ends(problem.base + problem.slot * problem.starts[arc.before])
            self.known[key] = bool(np.all(problem.base + problem.slot * arc.release >= ends))
        return self.known[key]


def _numbers(bits: int) -> Iterator[int]:
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
