"""The list pass: steps placed one by one at their first free start, exactly by the rules; a plan in milliseconds.

A window that is missed sends its giver to a later start; only the steps placed after it that hang together with it are
taken away and placed again.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sequencer.solve.board import OPEN
from sequencer.solve.boards import AnyBoard, Boards
from sequencer.solve.claims import Closing, Opened, Own, Stretch, claims_of, stretches
from sequencer.solve.problem import Problem
from sequencer.solve.threads import threads


@dataclass(frozen=True)
class Stuck:
    """No place for a task; the pass was given up."""

    task: int


@dataclass
class _Site:
    """A plan in the making: places by task (-1: none), how many givers each still waits for, first places held back.

    `order`: what is placed, thread by thread, in its order.
    """

    placed: list[int]
    left: list[int]
    held: list[int]
    boards: list[AnyBoard]
    order: list[list[int]]
    count: int = 0
    shut_out: list[int] = field(default_factory=list)


class ListPass:
    """Places the tasks of a problem in the order of a priority; the same priority gives the same plan.

    `missed`: how often each window was missed in all passes so far, by the tasks before and after it.
    """

    RETRIES, MORE = 100, 4
    """Windows that may be missed and mended in one pass, and how many more for each window. A matter of speed alone."""

    def __init__(self, problem: Problem) -> None:
        count, lists = len(problem.ids), problem.lists.of
        self.problem = problem
        self.starts = [lists(starts) for starts in problem.starts]
        self.thread = threads(problem)
        self.givers: list[list[tuple[int, Sequence[int]]]] = [[] for _ in range(count)]
        self.hearers: list[list[int]] = [[] for _ in range(count)]
        self.latests: list[list[tuple[int, Sequence[int]]]] = [[] for _ in range(count)]
        for arc in problem.arcs:
            self.givers[arc.after].append((arc.before, lists(arc.release)))
            self.hearers[arc.before].append(arc.after)
        for latest in problem.latests:
            self.latests[latest.after].append((latest.before, lists(latest.latest)))
        self.missed: Counter[tuple[int, int]] = Counter()
        self.own: list[list[Own]]
        self.opened: list[list[Opened]]
        self.closes: list[list[Closing]]
        self.own, self.opened, self.closes = claims_of(problem)
        self.boards = Boards(problem)
        self.stretches: list[list[Stretch]] = [stretches(own) for own in self.own]

    def run(self, priority: Sequence[float], held: Mapping[int, int] | None = None) -> list[int] | Stuck:
        """The place of each task in its starts, or Stuck. `held`: first places that count."""
        site = self._empty(held or {})
        starts, placed, left = self.starts, site.placed, site.left
        by_turn = sorted(range(len(placed)), key=priority.__getitem__)
        turn = [0] * len(placed)
        for number, task in enumerate(by_turn):
            turn[task] = number
        ready = [turn[task] for task, waits_for in enumerate(left) if not waits_for]
        heapq.heapify(ready)
        retries = self.RETRIES + self.MORE * len(self.problem.latests)
        while site.count < len(placed):
            if not ready:
                return Stuck(site.shut_out[0] if site.shut_out else 0)
            task = by_turn[heapq.heappop(ready)]
            if placed[task] >= 0 or left[task]:
                continue
            place = self._place(task, site)
            if place is None:
                site.shut_out.append(task)
                continue
            if place < 0:
                return Stuck(task)
            late = self._missed(task, place, site) if self.latests[task] else None
            if late is not None:
                retries -= 1
                if not retries or site.held[late] >= len(starts[late]):
                    return Stuck(late)
                again = [task, *self._take_back(late, site), *site.shut_out]
                site.shut_out.clear()
            else:
                self._put(task, place, site)
                again = self.hearers[task]
                if site.shut_out and self.closes[task]:
                    again = [*again, *site.shut_out]
                    site.shut_out.clear()
            for other in again:
                if not left[other] and placed[other] < 0:
                    heapq.heappush(ready, turn[other] - len(placed) * self._hurried(other, placed))
        return placed

    def _empty(self, held: Mapping[int, int]) -> _Site:
        count = len(self.starts)
        order: list[list[int]] = [[] for _ in range(1 + max(self.thread))]
        first = [0] * count
        for task, place in held.items():
            first[task] = place
        return _Site([-1] * count, [len(givers) for givers in self.givers], first, self.boards.empty(), order)

    def _hurried(self, task: int, placed: list[int]) -> bool:
        """True if a window for the task runs already: then it goes before all others (in `run`, by a turn below 0)."""
        windows = self.latests[task]
        return bool(windows) and any(placed[before] >= 0 for before, _ in windows)

    def _place(self, task: int, site: _Site) -> int | None:
        """The place of the first free start; -1 if there is none; None if an open claim shuts the task out for now."""
        starts, placed = self.starts[task], site.placed
        soonest = starts[0]
        for before, release in self.givers[task]:
            released = release[placed[before]]
            if released > soonest:
                soonest = released
        at, tried = max(bisect_left(starts, soonest), site.held[task]), -1
        tied = self.opened[task] or self.closes[task]
        while tried < at < len(starts):
            tried = at
            at = self._further(task, at, site)
            if tied and 0 <= at < len(starts):
                at = self._past_open(task, at, site)
        return None if at < 0 else at if at < len(starts) else -1

    def _further(self, task: int, at: int, site: _Site) -> int:
        """The same place if nothing is in the way; else one worth trying next; -1 if what is has no end yet."""
        boards = site.boards
        for begin, until, groups in self.stretches[task]:
            start, end = begin[at], until[at]
            for number, amount in groups:
                while (blocked := boards[number].conflict(start, end, amount)) is not None:
                    if blocked >= OPEN:
                        return -1
                    at = max(bisect_left(begin, blocked, at), at + 1)
                    if at == len(begin):
                        return at
                    start, end = begin[at], until[at]
        return at

    def _past_open(self, task: int, at: int, site: _Site) -> int:
        """As `_further`, by the claims that the task leaves open and those that it closes."""
        boards, placed = site.boards, site.placed
        for board, begin, last, until, amount in self.opened[task]:
            ends = placed[last]
            blocked = boards[board].conflict(begin[at], OPEN if ends < 0 else until[ends], amount)
            if blocked is not None:
                return -1 if blocked >= OPEN else max(bisect_left(begin, blocked, at), at + 1)
        for board, opener, begin, until, _ in self.closes[task]:
            begun = placed[opener]
            if begun >= 0 and boards[board].begun_within(begin[begun], until[at]):
                return -1
        return at

    def _missed(self, task: int, place: int, site: _Site) -> int | None:
        """The giver of a window that this place misses, already held back to where it is met; None if all are met."""
        start = self.starts[task][place]
        for before, latest in self.latests[task]:
            given = site.placed[before]
            if given >= 0 and start > latest[given]:
                self.missed[before, task] += 1
                site.held[before] = max(bisect_left(latest, start), given + 1)
                return before
        return None

    def _put(self, task: int, place: int, site: _Site) -> None:
        boards, placed = site.boards, site.placed
        placed[task] = place
        site.order[self.thread[task]].append(task)
        site.count += 1
        for board, begin, until, amount in self.own[task]:
            boards[board].put(begin[place], until[place], amount)
        for board, begin, last, until, amount in self.opened[task]:
            ends = placed[last]
            boards[board].put(begin[place], OPEN if ends < 0 else until[ends], amount)
        for board, opener, begin, until, amount in self.closes[task]:
            if placed[opener] >= 0:
                boards[board].close(begin[placed[opener]], until[place], amount)
        for other in self.hearers[task]:
            site.left[other] -= 1

    def _take_back(self, late: int, site: _Site) -> list[int]:
        """Takes away a task and what hangs together with it and was placed later, hand-over too where it follows any of
        that; the tasks that may go again."""
        order, boards, placed = site.order[self.thread[late]], site.boards, site.placed
        position = order.index(late)
        gone = order[position:]
        del order[position:]
        hand_over = self.problem.hand_over
        if placed[hand_over] >= 0 and any(before in gone for before, _ in self.givers[hand_over]):
            site.order[self.thread[hand_over]].remove(hand_over)
            gone.append(hand_over)
        site.count -= len(gone)
        for task in reversed(gone):
            place = placed[task]
            for board, opener, begin, until, amount in self.closes[task]:
                if placed[opener] >= 0:
                    boards[board].reopen(begin[placed[opener]], until[place], amount)
            for board, begin, until, amount in self.own[task]:
                boards[board].take(begin[place], until[place], amount)
            for board, begin, last, until, amount in self.opened[task]:
                ends = placed[last]
                boards[board].take(begin[place], OPEN if ends < 0 else until[ends], amount)
            for other in self.hearers[task]:
                site.left[other] += 1
            placed[task] = -1
        return [task for task in gone if not site.left[task]]
