"""The list pass: steps placed one by one at their first free start, exactly by the rules; a plan in milliseconds.

A window that is missed sends its giver to a later start; only the steps placed after it that hang together with it are
taken away and placed again.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field

from sequencer.solve.board import OPEN, Board, CountingBoard
from sequencer.solve.problem import Arc, Latest, Problem, SlotClaim
from sequencer.solve.threads import threads


@dataclass(frozen=True)
class Stuck:
    """No place for a task; the pass was given up."""

    task: int


@dataclass
class _Site:
    """A plan in the making."""

    placed: list[int]
    left: list[int]
    held: list[int]
    boards: list[Board | CountingBoard]
    order: list[int] = field(default_factory=list)


class ListPass:
    """Places the tasks of a problem in the order of a priority; the same priority gives the same plan."""

    RETRIES = 12
    """Windows that may be missed and mended in one pass, for each task with a window."""

    def __init__(self, problem: Problem) -> None:
        count = len(problem.ids)
        self.problem = problem
        self.starts = [starts.tolist() for starts in problem.starts]
        self.thread = threads(problem)
        self.arcs_in: list[list[Arc]] = [[] for _ in range(count)]
        self.arcs_out: list[list[Arc]] = [[] for _ in range(count)]
        self.latests_in: list[list[Latest]] = [[] for _ in range(count)]
        self.claims: list[list[tuple[int, SlotClaim]]] = [[] for _ in range(count)]
        self.closes: list[list[tuple[int, SlotClaim]]] = [[] for _ in range(count)]
        for arc in problem.arcs:
            self.arcs_in[arc.after].append(arc)
            self.arcs_out[arc.before].append(arc)
        for latest in problem.latests:
            self.latests_in[latest.after].append(latest)
        for number, group in enumerate(problem.groups):
            for claim in group.claims:
                self.claims[claim.task].append((number, claim))
                if claim.last != claim.task:
                    self.closes[claim.last].append((number, claim))

    def run(self, priority: Sequence[float]) -> list[int] | Stuck:
        """The place of each task in its starts, or Stuck."""
        count = len(self.problem.ids)
        boards: list[Board | CountingBoard] = [
            Board() if group.n == 1 else CountingBoard(group.n) for group in self.problem.groups
        ]
        site = _Site([-1] * count, [len(arcs) for arcs in self.arcs_in], [0] * count, boards)
        ready = [self._turn(task, priority, site) for task in range(count) if not site.left[task]]
        heapq.heapify(ready)
        shut_out: list[int] = []
        retries = self.RETRIES * (1 + len(self.problem.latests))
        while len(site.order) < count:
            if not ready:
                return Stuck(shut_out[0] if shut_out else 0)
            task = heapq.heappop(ready)[2]
            if site.placed[task] >= 0 or site.left[task]:
                continue
            place = self._place(task, site)
            if place is None:
                shut_out.append(task)
                continue
            if place < 0:
                return Stuck(task)
            late = self._missed(task, place, site)
            if late is not None:
                retries -= 1
                if not retries or site.held[late] >= len(self.starts[late]):
                    return Stuck(late)
                again = self._take_back(late, site)
            else:
                self._put(task, place, site)
                again = [arc.after for arc in self.arcs_out[task] if not site.left[arc.after]]
            for other in (task, *again, *shut_out):
                if site.placed[other] < 0 and not site.left[other]:
                    heapq.heappush(ready, self._turn(other, priority, site))
            shut_out = []
        return site.placed

    def _turn(self, task: int, priority: Sequence[float], site: _Site) -> tuple[int, float, int]:
        hurried = any(site.placed[latest.before] >= 0 for latest in self.latests_in[task])
        return (0 if hurried else 1, priority[task], task)

    def _place(self, task: int, site: _Site) -> int | None:
        """The place of the first free start; -1 if there is none; None if an open claim shuts the task out for now."""
        starts = self.starts[task]
        soonest = max((int(arc.release[site.placed[arc.before]]) for arc in self.arcs_in[task]), default=0)
        at = max(bisect_left(starts, soonest), site.held[task])
        while at < len(starts):
            blocked = self._blocked(task, at, starts[at], site)
            if blocked is None:
                return at
            if blocked >= OPEN:
                return None
            at = max(bisect_left(starts, blocked, at), at + 1)
        return -1

    def _blocked(self, task: int, at: int, start: int, site: _Site) -> int | None:
        """The moment at which what is in the way lets go; None if nothing is."""
        for number, claim in self.claims[task]:
            if claim.last == task:
                until = max(int(claim.until[at]), start + 1)
            else:
                last = site.placed[claim.last]
                until = OPEN if last < 0 else int(claim.until[last])
            blocked = site.boards[number].conflict(start, until, claim.amount)
            if blocked is not None:
                return blocked
        for number, claim in self.closes[task]:
            begun = site.placed[claim.task]
            if begun >= 0 and site.boards[number].begun_within(self.starts[claim.task][begun], int(claim.until[at])):
                return OPEN
        return None

    def _missed(self, task: int, place: int, site: _Site) -> int | None:
        """The giver of a window that this place misses, already held back to where it is met; None if all are met."""
        start = self.starts[task][place]
        for latest in self.latests_in[task]:
            given = site.placed[latest.before]
            if given >= 0 and start > int(latest.latest[given]):
                site.held[latest.before] = max(int(latest.latest.searchsorted(start)), given + 1)
                return latest.before
        return None

    def _put(self, task: int, place: int, site: _Site) -> None:
        site.placed[task] = place
        site.order.append(task)
        start = self.starts[task][place]
        for number, claim in self.claims[task]:
            last = site.placed[claim.last]
            site.boards[number].put(task, start, OPEN if last < 0 else int(claim.until[last]), claim.amount)
        for number, claim in self.closes[task]:
            if site.placed[claim.task] >= 0:
                site.boards[number].close(claim.task, int(claim.until[place]))
        for arc in self.arcs_out[task]:
            site.left[arc.after] -= 1

    def _take_back(self, late: int, site: _Site) -> list[int]:
        """Takes away a task and what hangs together with it and was placed later; the tasks that may go again."""
        position = site.order.index(late)
        gone = [t for t in site.order[position:] if self.thread[t] == self.thread[late]]
        for task in reversed(gone):
            for number, claim in self.closes[task]:
                if site.placed[claim.task] >= 0:
                    site.boards[number].close(claim.task, OPEN)
            for number, _ in self.claims[task]:
                site.boards[number].take(task)
            for arc in self.arcs_out[task]:
                site.left[arc.after] += 1
            site.placed[task] = -1
        taken = set(gone)
        site.order = [task for task in site.order if task not in taken]
        return [task for task in gone if not site.left[task]]
