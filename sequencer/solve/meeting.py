"""Which claims must be kept apart in which group: a pair that may meet is said once, in the largest of its groups."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from sequencer.solve.problem import Group, Problem, SlotClaim, Slots

Kept: TypeAlias = Callable[[int, Slots], Slots]
"""The part of an array by a task's starts that its trimmed range keeps."""


def kept_apart(problem: Problem, kept: Kept) -> Iterator[tuple[int, list[SlotClaim]]]:
    """For each group that still rules something out, how many at once and its claims.

    Claims may meet where their spans do, unless one is over whenever a task that follows it starts another.
    """
    numbers: dict[tuple[int, int, bytes], int] = {}
    spans: list[tuple[int, int]] = []
    claims: list[SlotClaim] = []

    def number(claim: SlotClaim) -> int:
        until = kept(claim.last, claim.until)
        key = (claim.task, claim.last, until.tobytes())
        if key not in numbers:
            numbers[key] = len(numbers)
            spans.append((int(kept(claim.task, problem.starts[claim.task])[0]), int(until[-1])))
            claims.append(claim)
        return numbers[key]

    groups = [(group, np.array([number(claim) for claim in group.claims])) for group in _largest_first(problem)]
    begin, end = np.array(spans, dtype=np.int64).reshape(-1, 2).T
    meet = (begin[:, None] < end) & (begin < end[:, None])
    np.fill_diagonal(meet, False)
    _part_followers(problem, kept, claims, meet)
    for group, members in groups:
        pairs = np.ix_(members, members)
        here = np.flatnonzero(meet[pairs].any(axis=1)).tolist()
        if group.n == 1:
            meet[pairs] = False
        if sum(group.claims[one].amount for one in here) > group.n:
            yield group.n, [group.claims[one] for one in here]


def _largest_first(problem: Problem) -> list[Group]:
    """Groups of one at a time come last: what they say of a pair is not needed again, what others say is."""
    return sorted(problem.groups, key=lambda group: (group.n == 1, -len(group.claims)))


def _part_followers(problem: Problem, kept: Kept, claims: list[SlotClaim], meet: NDArray[np.bool_]) -> None:
    """Takes out pairs whose order a wait keeps already."""
    begun: dict[int, list[int]] = {}
    over: dict[int, list[int]] = {}
    for number, claim in enumerate(claims):
        begun.setdefault(claim.task, []).append(number)
        over.setdefault(claim.last, []).append(number)
    for arc in problem.arcs:
        if arc.before not in over or arc.after not in begun:
            continue
        release = kept(arc.before, arc.release)
        for one in over[arc.before]:
            if (release >= kept(arc.before, claims[one].until)).all():
                meet[one, begun[arc.after]] = meet[begun[arc.after], one] = False
