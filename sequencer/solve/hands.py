"""How many hands of a group are taken, slot by slot, and where the next stretch may go.

A byte for every slot in which a claim may begin: what lies beyond the last of them is in nobody's way.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from sequencer.solve.board import OPEN

MOST = 255
"""Hands that a byte can count."""

FREE, FULL = b"\1", b"\0"


@dataclass(frozen=True)
class Counted:
    """A group: how many hands there are, how many a claim may take at once, the first slot and behind the last one."""

    n: int
    amounts: tuple[int, ...]
    base: int
    until: int

    @cached_property
    def more(self) -> dict[int, bytes]:
        """What becomes of a number of taken hands, by how many are taken, or given back, besides."""
        return {more: bytes((taken + more) % (MOST + 1) for taken in range(MOST + 1)) for more in self._changes()}

    @cached_property
    def fits(self) -> dict[int, bytes]:
        """For each amount, which numbers of taken hands leave it free."""
        return {
            amount: bytes(int(taken + amount <= self.n) for taken in range(MOST + 1)) for amount in set(self.amounts)
        }

    def _changes(self) -> Iterable[int]:
        return {sign * amount for amount in self.amounts for sign in (1, -1)}


class Hands:
    """The hands of a group in one plan."""

    __slots__ = ("base", "fits", "free", "more", "open", "taken")

    def __init__(self, group: Counted) -> None:
        length = group.until - group.base
        self.base, self.more, self.fits = group.base, group.more, group.fits
        self.taken = bytearray(length)
        self.free = {amount: bytearray((FREE if fits[0] else FULL) * length) for amount, fits in group.fits.items()}
        self.open = 0

    def conflict(self, start: int, until: int, amount: int) -> int | None:
        """Where the next try may begin; None if the stretch fits."""
        free = self.free[amount]
        last = free.rfind(FULL, start - self.base, until - self.base)
        if last < 0:
            return None
        next_free = free.find(FREE, last)
        if next_free < 0:
            return OPEN if self.open else self.base + len(free)
        return self.base + next_free

    def put(self, start: int, until: int, amount: int) -> None:
        """Places a stretch."""
        self.open += until >= OPEN
        self._add(start, until, amount)

    def close(self, start: int, until: int, amount: int) -> None:
        """Ends an open stretch."""
        self.open -= 1
        self._add(max(start, until), OPEN, -amount)

    def reopen(self, start: int, until: int, amount: int) -> None:
        """Opens a stretch again that was closed."""
        self.open += 1
        self._add(max(start, until), OPEN, amount)

    def take(self, start: int, until: int, amount: int) -> None:
        """Takes a stretch away."""
        self.open -= until >= OPEN
        self._add(start, until, -amount)

    def begun_within(self, start: int, until: int) -> bool:
        """Claims that may overlap need no room behind them."""
        return False

    def _add(self, start: int, until: int, more: int) -> None:
        begin = start - self.base
        end = max(begin, until - self.base)
        taken = self.taken[begin:end].translate(self.more[more])
        end = begin + len(taken)
        self.taken[begin:end] = taken
        for amount, free in self.free.items():
            free[begin:end] = taken.translate(self.fits[amount])
