"""Exact passes that trim each task's starts: no earlier than work before it, no later than hand-over allows."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass

from sequencer.solve.problem import Arc, Latest, Problem


@dataclass(frozen=True)
class Trimmed:
    """For each task the first and last place in its starts that can still be part of a plan (both included)."""

    first: tuple[int, ...]
    last: tuple[int, ...]


def trim(problem: Problem, hand_over_by: int, by: Mapping[int, int] | None = None) -> Trimmed | None:
    """Trims by orders, waits and windows, with hand-over at its `hand_over_by`-th start or before. None: no plan.

    `by`: further tasks with the last of their starts that counts.
    """
    return Trimmer(problem).trim(hand_over_by, by)


class Trimmer:
    """Trims one problem for one hand-over after another."""

    def __init__(self, problem: Problem) -> None:
        count = len(problem.ids)
        self.problem = problem
        self.forward: list[list[Arc | Latest]] = [[] for _ in range(count)]
        self.backward: list[list[Arc | Latest]] = [[] for _ in range(count)]
        for arc in problem.arcs:
            self.forward[arc.before].append(arc)
            self.backward[arc.after].append(arc)
        for latest in problem.latests:
            self.forward[latest.after].append(latest)
            self.backward[latest.before].append(latest)
        self.order = self._order()

    def trim(self, hand_over_by: int, by: Mapping[int, int] | None = None) -> Trimmed | None:
        """As the function of the same name."""
        first = [0] * len(self.problem.ids)
        last = [len(starts) - 1 for starts in self.problem.starts]
        for task, place in {**(by or {}), self.problem.hand_over: hand_over_by}.items():
            last[task] = min(place, last[task])
        if min(last, default=0) < 0:
            return None
        done = self._rise(first, last) and self._fall(first, last)
        return Trimmed(tuple(first), tuple(last)) if done else None

    def _order(self) -> list[int]:
        """The tasks, each after those it follows."""
        left = [sum(isinstance(tie, Arc) for tie in ties) for ties in self.backward]
        order = [task for task, count in enumerate(left) if not count]
        for task in order:
            for tie in self.forward[task]:
                if isinstance(tie, Arc):
                    left[tie.after] -= 1
                    if not left[tie.after]:
                        order.append(tie.after)
        return order

    def _rise(self, first: list[int], last: list[int]) -> bool:
        """Moves first places up until nothing changes. False: a task has no place left."""
        todo, queued = deque(self.order), set(self.order)
        starts = self.problem.starts
        while todo:
            task = todo.popleft()
            queued.discard(task)
            for tie in self.forward[task]:
                if isinstance(tie, Arc):
                    other, place = tie.after, int(starts[tie.after].searchsorted(tie.release[first[task]]))
                else:
                    other, place = tie.before, int(tie.latest.searchsorted(starts[task][first[task]]))
                if place > first[other]:
                    if place > last[other]:
                        return False
                    first[other] = place
                    if other not in queued:
                        todo.append(other)
                        queued.add(other)
        return True

    def _fall(self, first: list[int], last: list[int]) -> bool:
        """Moves last places down until nothing changes. False: a task has no place left."""
        todo, queued = deque(reversed(self.order)), set(self.order)
        starts = self.problem.starts
        while todo:
            task = todo.popleft()
            queued.discard(task)
            for tie in self.backward[task]:
                if isinstance(tie, Arc):
                    other = tie.before
                    place = int(tie.release.searchsorted(starts[task][last[task]], side="right")) - 1
                else:
                    other = tie.after
                    place = int(starts[other].searchsorted(tie.latest[last[task]], side="right")) - 1
                if place < last[other]:
                    if place < first[other]:
                        return False
                    last[other] = place
                    if other not in queued:
                        todo.append(other)
                        queued.add(other)
        return True
