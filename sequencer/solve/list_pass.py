"""The list pass: steps placed one by one at their first free start, exactly by the rules; a plan in milliseconds."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, field

from sequencer.solve.problem import Arc, Latest, Problem, SlotClaim

OPEN = 1 << 50
"""Where a claim ends that is still open (slots)."""


@dataclass(frozen=True)
class Stuck:
    """No place for a task; the pass was given up."""

    task: int


@dataclass(frozen=True)
class _TooLate:
    """A window was missed: `task` must take its `start`-th start or a later one."""

    task: int
    start: int


@dataclass
class _Board:
    """What is placed in one group: stretches as (from, until, amount, closing task)."""

    n: int
    stretches: list[tuple[int, int, int, int]] = field(default_factory=list)

    def conflict(self, start: int, until: int, amount: int) -> int | None:
        """Where the next try may start, None if the stretch fits."""
        meets = [s for s in self.stretches if s[0] < until and start < s[1]]
        if self.n == 1:
            return max((s[1] for s in meets), default=None)
        moments = sorted({start, *(s[0] for s in meets if s[0] > start)})
        over = any(amount + sum(s[2] for s in meets if s[0] <= at < s[1]) > self.n for at in moments)
        return min(s[1] for s in meets) if over else None

    def close(self, task: int, until: int) -> None:
        """Ends the stretches that were open until this task was placed."""
        self.stretches = [
            (a, until if b == OPEN and last == task else b, amount, last) for a, b, amount, last in self.stretches
        ]


class ListPass:
    """Places the tasks of a problem in the order of a priority; the same priority gives the same plan."""

    RETRIES = 400
    """Windows that may be missed and mended in one pass."""

    def __init__(self, problem: Problem) -> None:
        count = len(problem.ids)
        self.problem = problem
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
        held = [0] * len(self.problem.ids)
        late = 0
        for _ in range(self.RETRIES):
            result = self._once(priority, held)
            if not isinstance(result, _TooLate):
                return result
            if result.start >= len(self.problem.starts[result.task]):
                return Stuck(result.task)
            held[result.task] = result.start
            late = result.task
        return Stuck(late)

    def _once(self, priority: Sequence[float], held: list[int]) -> list[int] | Stuck | _TooLate:
        count = len(self.problem.ids)
        placed = [-1] * count
        left = [len(arcs) for arcs in self.arcs_in]
        boards = [_Board(group.n) for group in self.problem.groups]
        ready = [self._turn(task, priority, placed) for task in range(count) if not left[task]]
        heapq.heapify(ready)
        shut_out: list[int] = []
        for _ in range(count):
            while ready:
                task = heapq.heappop(ready)[2]
                place = self._place(task, placed, boards, held[task])
                if place is not None:
                    break
                shut_out.append(task)
            else:
                return Stuck(shut_out[0])
            if place < 0:
                return Stuck(task)
            missed = self._missed(task, place, placed)
            if missed is not None:
                return missed
            self._put(task, place, placed, boards)
            for arc in self.arcs_out[task]:
                left[arc.after] -= 1
                if not left[arc.after]:
                    heapq.heappush(ready, self._turn(arc.after, priority, placed))
            for other in shut_out:
                heapq.heappush(ready, self._turn(other, priority, placed))
            shut_out = []
        return placed

    def _turn(self, task: int, priority: Sequence[float], placed: list[int]) -> tuple[int, float, int]:
        hurried = any(placed[latest.before] >= 0 for latest in self.latests_in[task])
        return (0 if hurried else 1, priority[task], task)

    def _place(self, task: int, placed: list[int], boards: list[_Board], held: int) -> int | None:
        """The place of the first free start; -1 if there is none; None if an open claim shuts the task out for now."""
        starts = self.problem.starts[task]
        soonest = max((int(arc.release[placed[arc.before]]) for arc in self.arcs_in[task]), default=0)
        at = max(int(starts.searchsorted(soonest)), held)
        while at < len(starts):
            start = int(starts[at])
            blocked = self._blocked(task, at, start, placed, boards)
            if blocked is None:
                return at
            if blocked >= OPEN:
                return None
            at = int(starts.searchsorted(blocked))
        return -1

    def _blocked(self, task: int, at: int, start: int, placed: list[int], boards: list[_Board]) -> int | None:
        for number, claim in self.claims[task]:
            until = max(int(claim.until[at]), start + 1) if claim.last == task else OPEN
            if claim.last != task and placed[claim.last] >= 0:
                until = int(claim.until[placed[claim.last]])
            blocked = boards[number].conflict(start, until, claim.amount)
            if blocked is not None and blocked > start:
                return blocked
        for number, claim in self.closes[task]:
            blocked = self._closing_conflict(number, claim, at, placed, boards)
            if blocked is not None:
                return blocked
        return None

    def _closing_conflict(
        self, number: int, claim: SlotClaim, at: int, placed: list[int], boards: list[_Board]
    ) -> int | None:
        """Closing a claim late may run into what is placed behind it: then the pass cannot mend it."""
        begun = int(self.problem.starts[claim.task][placed[claim.task]]) if placed[claim.task] >= 0 else None
        if begun is None:
            return None
        until = int(claim.until[at])
        behind = [s for s in boards[number].stretches if begun < s[0] < until and s[1] != OPEN and s[3] != claim.last]
        return OPEN if behind and boards[number].n == 1 else None

    def _missed(self, task: int, place: int, placed: list[int]) -> _TooLate | None:
        start = int(self.problem.starts[task][place])
        for latest in self.latests_in[task]:
            if placed[latest.before] >= 0 and start > int(latest.latest[placed[latest.before]]):
                return _TooLate(latest.before, int(latest.latest.searchsorted(start)))
        return None

    def _put(self, task: int, place: int, placed: list[int], boards: list[_Board]) -> None:
        placed[task] = place
        start = int(self.problem.starts[task][place])
        for number, claim in self.claims[task]:
            closed = placed[claim.last] >= 0
            until = int(claim.until[placed[claim.last]]) if closed else OPEN
            boards[number].stretches.append((start, until, claim.amount, claim.last))
        for number, claim in self.closes[task]:
            boards[number].close(task, int(claim.until[place]))
