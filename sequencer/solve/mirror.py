"""A problem seen backwards in time: a list pass over it places every task as late as can be."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence

import numpy as np

from sequencer.solve.problem import Arc, Group, Latest, Problem, SlotClaim, Slots

NEVER = 1 << 40
"""A slot beyond every grid."""


def mirrored(problem: Problem) -> Problem:
    """The same tasks with time turned round: the k-th start from the end is the k-th, at minus its slot.

    What followed goes before. Half-days, weights, bookings and the hand-overs of several jobs are left out.
    """
    return _Mirror(problem).problem()


def places_back(problem: Problem, places: Sequence[int]) -> list[int]:
    """Places in a problem as those in its mirror, or the other way round."""
    return [len(starts) - 1 - place for starts, place in zip(problem.starts, places, strict=True)]


class _Mirror:
    def __init__(self, problem: Problem) -> None:
        self.front = problem
        self._arrays: dict[Hashable, Slots] = {}

    def problem(self) -> Problem:
        front = self.front
        return Problem(
            ids=front.ids,
            slot=front.slot,
            base=front.base,
            starts=tuple(self._turned(starts) for starts in front.starts),
            arcs=tuple(self._arc(arc) for arc in front.arcs),
            latests=tuple(self._latest(latest) for latest in front.latests),
            groups=tuple(Group(group.n, tuple(map(self._claim, group.claims))) for group in front.groups),
            weights=(),
            hand_over=front.hand_over,
            half_day=np.array([], dtype=np.int64),
        )

    def _arc(self, arc: Arc) -> Arc:
        """`before` takes at the latest the place whose release is not after the start of `after`."""
        before, after = self.front.starts[arc.before], self.front.starts[arc.after]

        def release() -> Slots:
            place = arc.release.searchsorted(after, side="right") - 1
            return np.where(place < 0, NEVER, -before[np.maximum(place, 0)])[::-1]

        return Arc(arc.after, arc.before, self._once((id(arc.release), id(before), id(after)), release))

    def _latest(self, latest: Latest) -> Latest:
        """`before` takes at the soonest the place whose latest is not before the start of `after`."""
        before, after = self.front.starts[latest.before], self.front.starts[latest.after]

        def soonest() -> Slots:
            place = latest.latest.searchsorted(after)
            none = place == len(before)
            return np.where(none, -NEVER, -before[np.where(none, 0, place)])[::-1]

        return Latest(latest.after, latest.before, self._once((id(latest.latest), id(before), id(after)), soonest))

    def _claim(self, claim: SlotClaim) -> SlotClaim:
        starts = self.front.starts[claim.task]
        begin = starts if claim.begin is None else claim.begin
        until = claim.until
        if claim.last == claim.task:
            until = self._once((id(until), id(begin)), lambda: np.maximum(claim.until, begin + 1))
        return SlotClaim(claim.last, claim.task, self._turned(begin), claim.amount, self._turned(until))

    def _turned(self, slots: Slots) -> Slots:
        return self._once(id(slots), lambda: -slots[::-1])

    def _once(self, key: Hashable, work: Callable[[], Slots]) -> Slots:
        if key not in self._arrays:
            self._arrays[key] = np.ascontiguousarray(work())
        return self._arrays[key]
