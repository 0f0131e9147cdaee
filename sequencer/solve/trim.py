"""Exact passes that trim each task's starts: no earlier than work before it, no later than hand-over allows."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeAlias

from sequencer.solve.problem import Problem

Tie: TypeAlias = tuple[bool, int, Sequence[int]]
"""A rule as one of its two tasks sees it: whether it is a window, the other task, release or latest by place."""


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


def latest_starts(problem: Problem, hand_over_by: int, by: Mapping[int, int] | None = None) -> list[float] | None:
    """The latest start of every task (slots), an order for list passes; as `trim`, None where there is no plan."""
    trimmed = trim(problem, hand_over_by, by)
    return None if trimmed is None else list(map(float, problem.slots(trimmed.last)))


class Trimmer:
    """Trims one problem for one hand-over after another."""

    def __init__(self, problem: Problem) -> None:
        count, lists = len(problem.ids), problem.lists.of
        self.problem = problem
        self.starts = [lists(starts) for starts in problem.starts]
        self.forward: list[list[Tie]] = [[] for _ in range(count)]
        self.backward: list[list[Tie]] = [[] for _ in range(count)]
        for arc in problem.arcs:
            release = lists(arc.release)
            self.forward[arc.before].append((False, arc.after, release))
            self.backward[arc.after].append((False, arc.before, release))
        for window in problem.latests:
            latest = lists(window.latest)
            self.forward[window.after].append((True, window.before, latest))
            self.backward[window.before].append((True, window.after, latest))
        self.order = self._order()

    def trim(self, hand_over_by: int, by: Mapping[int, int] | None = None) -> Trimmed | None:
        """As the function of the same name."""
        last = [len(starts) - 1 for starts in self.starts]
        for task, place in {**(by or {}), self.problem.hand_over: hand_over_by}.items():
            last[task] = min(place, last[task])
        first = self.first
        if first is None or any(soon > late for soon, late in zip(first, last, strict=True)):
            return None
        return Trimmed(first, tuple(last)) if self.fall(first, last) else None

    @cached_property
    def first(self) -> tuple[int, ...] | None:
        """The first place of every task, whenever hand-over is; None: a task has none."""
        first = [0] * len(self.starts)
        return tuple(first) if all(self.starts) and self.rise(first) else None

    def _order(self) -> list[int]:
        """The tasks, each after those it follows."""
        left = [sum(not window for window, *_ in ties) for ties in self.backward]
        order = [task for task, count in enumerate(left) if not count]
        for task in order:
            for window, other, _ in self.forward[task]:
                if not window:
                    left[other] -= 1
                    if not left[other]:
                        order.append(other)
        return order

    def rise(self, first: list[int]) -> bool:
        """Moves first places up until nothing changes. False: a task has no place left."""
        todo, queued = deque(self.order), set(self.order)
        starts = self.starts
        while todo:
            task = todo.popleft()
            queued.discard(task)
            place = first[task]
            for window, other, moments in self.forward[task]:
                reached = first[other]
                if window:
                    soonest = bisect_left(moments, starts[task][place], reached)
                else:
                    soonest = bisect_left(starts[other], moments[place], reached)
                if soonest > reached:
                    if soonest >= len(starts[other]):
                        return False
                    first[other] = soonest
                    if other not in queued:
                        todo.append(other)
                        queued.add(other)
        return True

    def fall(self, first: Sequence[int], last: list[int], lowered: Sequence[int] | None = None) -> bool:
        """Moves last places down until nothing changes. False: a task has no place left.

        `lowered`: the tasks whose last place is lower than where it last came to rest; None: any may be.
        """
        todo = deque(reversed(self.order if lowered is None else lowered))
        queued = set(todo)
        starts = self.starts
        while todo:
            task = todo.popleft()
            queued.discard(task)
            place = last[task]
            for window, other, moments in self.backward[task]:
                reached = last[other]
                if window:
                    latest = bisect_right(starts[other], moments[place], 0, reached + 1) - 1
                else:
                    latest = bisect_right(moments, starts[task][place], 0, reached + 1) - 1
                if latest < reached:
                    if latest < first[other]:
                        return False
                    last[other] = latest
                    if other not in queued:
                        todo.append(other)
                        queued.add(other)
        return True
