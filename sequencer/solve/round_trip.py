"""Where orders, waits and windows alone leave a task no start: the tasks that push each other out of the calendar."""

from __future__ import annotations

from bisect import bisect_left
from collections import deque

from sequencer.network.ahead import ahead
from sequencer.network.model import Network
from sequencer.solve.grid import lay
from sequencer.solve.trim import Trimmer


def pushed_out(network: Network) -> frozenset[str]:
    """The ids of these tasks, from the one that has no start left back along what pushed each; none if all have one."""
    problem = lay(ahead(network), network.horizon)
    without = frozenset(id for id, starts in zip(problem.ids, problem.starts, strict=True) if not len(starts))
    return without or frozenset(problem.ids[task] for task in _pushed(Trimmer(problem)))


def _pushed(trimmer: Trimmer) -> set[int]:
    """First starts pushed later, each by the last that did, until one has no place left; the tasks behind that."""
    starts, first = trimmer.starts, [0] * len(trimmer.starts)
    by: dict[int, int] = {}
    todo, queued = deque(trimmer.order), set(trimmer.order)
    while todo:
        task = todo.popleft()
        queued.discard(task)
        for window, other, moments in trimmer.forward[task]:
            bounds, least = (moments, starts[task][first[task]]) if window else (starts[other], moments[first[task]])
            soonest = bisect_left(bounds, least, first[other])
            if soonest > first[other]:
                by[other] = task
                if soonest >= len(starts[other]):
                    return _back(by, other)
                first[other] = soonest
                if other not in queued:
                    todo.append(other)
                    queued.add(other)
    return set()


def _back(by: dict[int, int], task: int) -> set[int]:
    found = {task}
    while task in by and by[task] not in found:
        task = by[task]
        found.add(task)
    return found
