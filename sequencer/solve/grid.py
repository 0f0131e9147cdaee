"""Lays a network on the grid. Waits and windows are taken from the exact minute of the end of work; only then is ready
rounded up and latest rounded down, so that a plan on the grid is right to the minute. What is alike is laid once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable
from dataclasses import dataclass

import numpy as np

from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    AtMost,
    Claim,
    CountedCost,
    MinuteFunction,
    Minutes,
    Network,
    OneAtATime,
    Order,
    StartTest,
    WaitFor,
    Window,
)
from sequencer.solve.goals import lay_goals
from sequencer.solve.problem import Arc, Group, Latest, Problem, SlotClaim, Slots
from sequencer.solve.widths import base_of, widths
from sequencer.terms.minute import Minute

Ends = tuple[MinuteFunction | None, ...]
"""Functions of an end of work; None: that end itself."""


def lay(network: Network, until: Minute, keep_bookings: bool = True) -> Problem:
    """The problem of a network with all starts before `until`. Without bookings their tasks are free."""
    return _Layer(network, until, keep_bookings).problem()


class _Kept:
    """What was laid of a network, for the next one that is nearly the same; what that one has no more is let go."""

    def __init__(self, on: Hashable) -> None:
        self.on = on
        self.likes: dict[Hashable, _Laid] = {}
        self.arrays: dict[Hashable, Slots] = {}

    @classmethod
    def of(cls, network: Network, on: Hashable) -> tuple[_Kept, _Kept]:
        """What was laid on a grid before, nothing if it was another one; and what will be."""
        before, now = network.known.get(lay), cls(on)
        network.known[lay] = now
        return before if before is not None and before.on == on else now, now


@dataclass(frozen=True, eq=False)
class _Laid:
    """Allowed starts, their ends [Minute] and their slots."""

    starts: Minutes
    ends: Minutes
    slots: Slots


class _Layer:
    def __init__(self, network: Network, until: Minute, keep_bookings: bool) -> None:
        self.network = network
        width = widths(network)
        self.slot = min(width.values())
        self.base = base_of(network)
        self.number = {id: number for number, id in enumerate(network.tasks)}
        self.tests: dict[str, list[StartTest]] = defaultdict(list)
        for rule in network.of(AllowedStarts):
            if keep_bookings or rule.booking is None:
                self.tests[rule.task].append(rule.allowed)
        end = min(until, network.horizon)
        grids = {step: np.arange(self.base, end, step, dtype=np.int64) for step in set(width.values())}
        self._before, self._now = _Kept.of(network, (self.base, self.slot, end))
        self.laid = {id: self._lay_task(id, width[id], grids[width[id]]) for id in network.tasks}

    def _lay_task(self, id: str, width: int, grid: Minutes) -> _Laid:
        work, tests = self.network.tasks[id].work, self.tests[id]
        key = (width, work.alike, *tests)
        likes = self._now.likes
        if key not in likes and key in self._before.likes:
            likes[key] = self._before.likes[key]
        if key not in likes:
            starts = grid[work.allowed(grid)]
            ends = work.ends(starts)
            for allowed in tests:
                ok = allowed(starts, ends)
                if not ok.all():
                    starts, ends = starts[ok], ends[ok]
            likes[key] = _Laid(starts, ends, (starts - self.base) // self.slot)
        return likes[key]

    def problem(self) -> Problem:
        network = self.network
        hand_over = self.laid[HAND_OVER]
        costs = {rule.task: rule.weight for rule in network.of(CountedCost)}
        half_days = np.searchsorted(np.array(network.half_days, dtype=np.int64), hand_over.starts, side="right")
        return Problem(
            ids=tuple(network.tasks),
            slot=self.slot,
            base=self.base,
            starts=tuple(laid.slots for laid in self.laid.values()),
            arcs=tuple(self._arcs()),
            latests=tuple(self._latests()),
            groups=tuple(self._groups()),
            weights=tuple(costs.get(id, 0) for id in network.tasks),
            hand_over=self.number[HAND_OVER],
            half_day=half_days.astype(np.int64),
            booked=self._bookings(),
            goals=lay_goals(network.goals, self.number, {id: (one.starts, one.ends) for id, one in self.laid.items()}),
        )

    def _arcs(self) -> list[Arc]:
        pairs: dict[tuple[str, str], list[MinuteFunction | None]] = defaultdict(list)
        for order in self.network.of(Order):
            pairs[order.before, order.after].append(None)
        for wait in self.network.of(WaitFor):
            pairs[wait.before, wait.after].append(wait.ready)
        return [
            Arc(self.number[before], self.number[after], self._release(self.laid[before], tuple(dict.fromkeys(ready))))
            for (before, after), ready in pairs.items()
        ]

    def _latests(self) -> list[Latest]:
        pairs: dict[tuple[str, str], list[MinuteFunction | None]] = defaultdict(list)
        for window in self.network.of(Window):
            pairs[window.before, window.after].append(window.latest)
        return [
            Latest(self.number[before], self.number[after], self._latest(self.laid[before], tuple(latest)))
            for (before, after), latest in pairs.items()
        ]

    def _groups(self) -> list[Group]:
        groups = [Group(1, self._claims(rule.claims)) for rule in self.network.of(OneAtATime)]
        return groups + [Group(rule.n, self._claims(rule.claims)) for rule in self.network.of(AtMost)]

    def _claims(self, claims: tuple[Claim, ...]) -> tuple[SlotClaim, ...]:
        return tuple(
            SlotClaim(
                self.number[claim.task],
                self.number[claim.closes_with],
                self._release(self.laid[claim.closes_with], (claim.until,)),
                claim.amount,
            )
            for claim in claims
        )

    def _release(self, laid: _Laid, ready: Ends) -> Slots:
        """The first slot at or after the latest of these moments, for every end of work."""
        return self._once(
            (laid, ready, "release"), lambda: -((self.base - np.maximum.reduce(_said(laid, ready))) // self.slot)
        )

    def _latest(self, laid: _Laid, latest: Ends) -> Slots:
        """The last slot at or before the soonest of these moments, for every end of work."""
        return self._once(
            (laid, latest, "latest"), lambda: (np.minimum.reduce(_said(laid, latest)) - self.base) // self.slot
        )

    def _once(self, key: Hashable, work: Callable[[], Slots]) -> Slots:
        arrays = self._now.arrays
        if key not in arrays:
            known = self._before.arrays.get(key)
            arrays[key] = work() if known is None else known
        return arrays[key]

    def _bookings(self) -> dict[int, int]:
        booked = {}
        for rule in self.network.of(AllowedStarts):
            if rule.booking is not None:
                laid = self.laid[rule.task]
                at = laid.starts[rule.allowed(laid.starts, laid.ends)]
                booked[self.number[rule.task]] = int((at[0] - self.base) // self.slot) if len(at) else -1
        return booked


def _said(laid: _Laid, functions: Ends) -> list[Minutes]:
    return [laid.ends if function is None else function(laid.ends) for function in functions]
