"""How many hands of a group are taken from each moment on, where a byte is too small or amounts are many."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from sequencer.solve.board import OPEN


class ManyHands:
    """The hands of a group in one plan."""

    def __init__(self, n: int) -> None:
        self._n = n
        self._moments = [-OPEN]
        self._taken = [0]

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

    def put(self, start: int, until: int, amount: int) -> None:
        """Places a stretch."""
        for at in range(self._edge(start), self._edge(max(start, until))):
            self._taken[at] += amount

    def close(self, start: int, until: int, amount: int) -> None:
        """Ends an open stretch."""
        self.put(max(start, until), OPEN, -amount)

    def reopen(self, start: int, until: int, amount: int) -> None:
        """Opens a stretch again that was closed."""
        self.put(max(start, until), OPEN, amount)

    def take(self, start: int, until: int, amount: int) -> None:
        """Takes a stretch away."""
        self.put(start, until, -amount)

    def begun_within(self, start: int, until: int) -> bool:
        """Claims that may overlap need no room behind them."""
        return False

    def _edge(self, moment: int) -> int:
        at = bisect_left(self._moments, moment)
        if at == len(self._moments) or self._moments[at] != moment:
            self._moments.insert(at, moment)
            self._taken.insert(at, self._taken[at - 1])
        return at
