"""What is placed so far in one group that takes one claim at a time, and where the next stretch may go."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

OPEN = 1 << 50
"""Where a claim ends that is still open (slots)."""


class Board:
    """Stretches in order, none overlapping. `ends`: where each ends; the first ends before all time."""

    __slots__ = ("begins", "ends")

    def __init__(self) -> None:
        self.begins = [-OPEN]
        self.ends = [-OPEN]

    def conflict(self, start: int, until: int, amount: int) -> int | None:
        """Where the next try may begin; None if the stretch fits."""
        ends = self.ends
        if ends[-1] <= start:
            return None
        at = bisect_right(ends, start)
        return ends[at] if self.begins[at] < until else None

    def put(self, start: int, until: int, amount: int) -> None:
        """Places a stretch."""
        until = max(start, until)
        if self.ends[-1] <= start:
            self.begins.append(start)
            self.ends.append(until)
        else:
            at = bisect_right(self.begins, start)
            self.begins.insert(at, start)
            self.ends.insert(at, until)

    def close(self, start: int, until: int, amount: int) -> None:
        """Ends an open stretch."""
        self.ends[self._at(start)] = max(start, until)

    def reopen(self, start: int, until: int, amount: int) -> None:
        """Opens a stretch again that was closed."""
        self.ends[self._at(start)] = OPEN

    def take(self, start: int, until: int, amount: int) -> None:
        """Takes a stretch away."""
        at = self._at(start)
        del self.begins[at], self.ends[at]

    def begun_within(self, start: int, until: int) -> bool:
        """True if another stretch begins inside a span."""
        return bisect_left(self.begins, until) > bisect_right(self.begins, start)

    def _at(self, start: int) -> int:
        return bisect_right(self.begins, start) - 1
