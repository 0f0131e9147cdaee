"""Covers "these two never at once" by few groups in which nobody overlaps anybody."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache

KEPT = 256
"""Groupings that are remembered: a job that is asked about again and again has mostly the same ones. A matter of speed
alone."""


def cliques(
    members: Sequence[str], conflict: Callable[[str, str], bool], needed: Callable[[str, str], bool] | None = None
) -> list[list[str]]:
    """Groups of members in which every two conflict, that together hold every pair that conflicts and is `needed`.

    A pair that conflicts but is not needed (others see to it) may stand in a group, but makes none. Greedy, repeatable.
    """
    count = len(members)
    meets, left = [0] * count, [0] * count
    for one in range(count):
        for other in range(one + 1, count):
            if conflict(members[one], members[other]):
                meets[one] |= 1 << other
                meets[other] |= 1 << one
                if needed is None or needed(members[one], members[other]):
                    left[one] |= 1 << other
                    left[other] |= 1 << one
    return [[members[number] for number in group] for group in _groups(tuple(meets), tuple(left))]


@lru_cache(KEPT)
def _groups(meets: tuple[int, ...], needed: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """The groups as numbers of their members. For each member, as bits: whom it meets, and which of them are needed."""
    left, groups = list(needed), []
    for one in range(len(left)):
        while left[one]:
            group = _grown(one, meets, left)
            inside = tuple(_bits(group))
            groups.append(inside)
            for number in inside:
                left[number] &= ~group
    return tuple(groups)


def _grown(one: int, meets: Sequence[int], left: Sequence[int]) -> int:
    """A group around a member, as bits, grown by whoever brings most of the pairs that are left."""
    group, open_to = 1 << one, meets[one]
    while open_to:
        gain, number = max(((left[number] & group).bit_count(), -number) for number in _bits(open_to))
        if not gain:
            break
        group |= 1 << -number
        open_to &= meets[-number]
    return group


def _bits(mask: int) -> Iterator[int]:
    """The numbers a mask holds, in order."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
