"""What is placed so far in one group of claims, and where the next stretch may go."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

OPEN = 1 << 50
"""Where a claim ends that is still open (slots)."""


class Board:
    """A group that takes one claim at a time: stretches in order, none overlapping."""

    def __init__(self) -> None:
        self._starts: list[int] = []
        self._untils: list[int] = []
        self._tasks: list[int] = []

    def conflict(self, start: int, until: int, amount: int) -> int | None:
        """Where the next try may begin; None if the stretch fits."""
        at = bisect_right(self._starts, start) - 1
        if at >= 0 and self._untils[at] > start:
            return self._untils[at]
        after = at + 1
        while after < len(self._starts) and self._starts[after] < until:
            if self._untils[after] > start:
                return self._untils[after]
            after += 1
        return None

    def put(self, task: int, start: int, until: int, amount: int) -> None:
        """Places a task's stretch."""
        at = bisect_right(self._starts, start)
        self._starts.insert(at, start)
        self._untils.insert(at, until)
        self._tasks.insert(at, task)

    def close(self, task: int, until: int) -> None:
        """Ends the stretch of a task that was open."""
        self._untils[self._tasks.index(task)] = until

    def take(self, task: int) -> None:
        """Takes a task's stretch away."""
        at = self._tasks.index(task)
        del self._starts[at], self._untils[at], self._tasks[at]

    def begun_within(self, start: int, until: int) -> bool:
        """True if another stretch begins inside a span."""
        return bisect_left(self._starts, until) > bisect_right(self._starts, start)


class CountingBoard:
    """A group that takes claims up to a number: how much is taken from each moment on."""

    def __init__(self, n: int) -> None:
        self._n = n
        self._moments = [-OPEN]
        self._taken = [0]
        self._of: dict[int, tuple[int, int, int]] = {}

    def conflict(self, start: int, until: int, amount: int) -> int | None:
        """Where the next try may begin; None if the stretch fits."""
        at = bisect_right(self._moments, start) - 1
        blocked = None
        while at < len(self._moments) and self._moments[at] < until:
            if self._taken[at] + amount > self._n:
                blocked = at
            at += 1
        if blocked is None:
            return None
        return self._moments[blocked + 1] if blocked + 1 < len(self._moments) else OPEN

    def put(self, task: int, start: int, until: int, amount: int) -> None:
        """Places a task's stretch."""
        self._of[task] = (start, until, amount)
        self._add(start, until, amount)

    def close(self, task: int, until: int) -> None:
        """Ends the stretch of a task that was open."""
        start, _, amount = self._of[task]
        self.take(task)
        self.put(task, start, until, amount)

    def take(self, task: int) -> None:
        """Takes a task's stretch away."""
        start, until, amount = self._of.pop(task)
        self._add(start, until, -amount)

    def begun_within(self, start: int, until: int) -> bool:
        """Claims that may overlap need no room behind them."""
        return False

    def _add(self, start: int, until: int, amount: int) -> None:
        for at in range(self._edge(start), self._edge(until)):
            self._taken[at] += amount

    def _edge(self, moment: int) -> int:
        at = bisect_left(self._moments, moment)
        if at == len(self._moments) or self._moments[at] != moment:
            self._moments.insert(at, moment)
            self._taken.insert(at, self._taken[at - 1])
        return at
