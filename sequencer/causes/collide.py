"""Which few of many causes cannot all hold: a set from which nothing can be left out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sequencer.terms.cause import Cause

Fits = Callable[[frozenset[Cause]], bool | None]
"""Whether an order of work fits if, of all causes, only these hold; None if that is not known."""


@dataclass(frozen=True)
class Collision:
    """Causes that cannot all hold, in the order they were given. `irreducible`: without any one of them all others can.

    With no causes at all, not even the hours and the order of the recipes fit.
    """

    causes: tuple[Cause, ...]
    irreducible: bool


class Spent(Exception):
    """No more tests: what `fits` raises where it has no more work to do them."""


def collision(causes: Sequence[Cause], fits: Fits) -> Collision | None:
    """The collision among causes that do not fit together, as far as `fits` tells; None if they are not known not to.

    Halves are taken away and put back until what is left cannot be parted; what comes first is blamed before what
    comes last. What is not known to collide counts as fitting, so the set may then be larger than need be.
    """
    search = _Search(causes, fits)
    try:
        if not search.collide(frozenset(causes)):
            return None
        if search.collide(frozenset()):
            return Collision((), True)
        found = search.parted(frozenset(), False, tuple(causes))
        return Collision(*search.confirmed(found))
    except Spent:
        found = tuple(cause for cause in causes if cause in search.smallest)
        return Collision(found, False) if search.known.get(search.smallest) is False else None


class _Search:
    def __init__(self, causes: Sequence[Cause], fits: Fits) -> None:
        self.fits = fits
        self.order = {cause: number for number, cause in enumerate(causes)}
        self.smallest = frozenset(causes)
        self.known: dict[frozenset[Cause], bool | None] = {}

    def collide(self, held: frozenset[Cause]) -> bool:
        """True if these alone are known not to fit together."""
        if held not in self.known:
            self.known[held] = self.fits(held)
        if self.known[held] is False and len(held) < len(self.smallest):
            self.smallest = held
        return self.known[held] is False

    def parted(self, held: frozenset[Cause], grew: bool, causes: tuple[Cause, ...]) -> tuple[Cause, ...]:
        """The causes that are needed beside `held` for a collision."""
        if grew and self.collide(held):
            return ()
        if len(causes) == 1:
            return causes
        middle = len(causes) // 2
        first, second = causes[:middle], causes[middle:]
        needed = self.parted(held | frozenset(first), bool(first), second)
        return (*self.parted(held | frozenset(needed), bool(needed), first), *needed)

    def confirmed(self, found: tuple[Cause, ...]) -> tuple[tuple[Cause, ...], bool]:
        """The set without what it does not need after all; whether every member is then known to be needed."""
        causes = sorted(found, key=self.order.__getitem__)
        for cause in tuple(causes):
            rest = frozenset(causes) - {cause}
            if self.collide(rest):
                causes.remove(cause)
        needed = (self.known.get(frozenset(causes) - {cause}) is True for cause in causes)
        return tuple(causes), self.collide(frozenset(causes)) and all(needed)
