"""Lays a network on the grid. Waits and windows are taken from the exact minute of the end of work; only then is ready
rounded up and latest rounded down, so that a plan on the grid is right to the minute."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    AtMost,
    Claim,
    CountedCost,
    Network,
    OneAtATime,
    Order,
    WaitFor,
    Window,
)
from sequencer.solve.problem import Arc, Group, Latest, Problem, SlotClaim
from sequencer.terms.minute import HOUR, Minute

COARSE, FINE, FINEST = 15, 5, 1
"""Widths of a task's grid [min]: the usual one; for a window under an hour or hours off the quarter; for odd hours, a
visit booked off the five minutes, a window under them."""

DAYS_SEEN = 14
"""Openings looked at for odd hours: two weeks of days, more than any weekly pattern has."""


def lay(network: Network, until: Minute, keep_bookings: bool = True) -> Problem:
    """The problem of a network with all starts before `until`. Without bookings their tasks are free."""
    return _Layer(network, until, keep_bookings).problem()


def widths(network: Network) -> dict[str, int]:
    """The width of every task's own grid [min]: fine only for who must meet a short window or works odd hours."""
    hurried: dict[str, int] = {}
    for window in network.of(Window):
        hurried[window.after] = min(_width(network, window), hurried.get(window.after, HOUR))
    booked = {rule.task: rule for rule in network.of(AllowedStarts) if rule.booking is not None}
    fine_grid = np.arange(_base(network), network.horizon, FINE, dtype=np.int64)
    found = {}
    for id, task in network.tasks.items():
        hours = [int(opening) % HOUR for opening in task.work.openings.opens[:DAYS_SEEN]]
        off_grid = id in booked and not booked[id].allowed(fine_grid, fine_grid).any()
        room = hurried.get(id, HOUR)
        if off_grid or room < FINE or any(hour % FINE for hour in hours):
            found[id] = FINEST
        else:
            fine = room < HOUR or id in booked or any(hour % COARSE for hour in hours)
            found[id] = FINE if fine else COARSE
    return found


def _base(network: Network) -> Minute:
    """The first minute of every grid."""
    return -(-network.start // COARSE) * COARSE


def _width(network: Network, window: Window) -> int:
    """The narrowest window between ready and latest, seen from the first starts of its giver [min]."""
    ends = np.array([network.start], dtype=np.int64)
    ready = [
        int(rule.ready(ends)[0])
        for rule in network.of(WaitFor)
        if rule.before == window.before and rule.after == window.after
    ]
    return int(window.latest(ends)[0]) - max(ready, default=network.start)


@dataclass(frozen=True)
class _Laid:
    """A task's allowed starts and their ends [Minute]."""

    number: int
    starts: NDArray[np.int64]
    ends: NDArray[np.int64]


class _Layer:
    def __init__(self, network: Network, until: Minute, keep_bookings: bool) -> None:
        self.network = network
        width = widths(network)
        self.slot = min(width.values())
        self.base = _base(network)
        self.keep_bookings = keep_bookings
        self.rules: dict[str, list[AllowedStarts]] = {id: [] for id in network.tasks}
        for rule in network.of(AllowedStarts):
            self.rules[rule.task].append(rule)
        end = min(until, network.horizon)
        grids = {step: np.arange(self.base, end, step, dtype=np.int64) for step in set(width.values())}
        self.laid = {id: self._lay_task(number, id, grids[width[id]]) for number, id in enumerate(network.tasks)}

    def _lay_task(self, number: int, id: str, grid: NDArray[np.int64]) -> _Laid:
        work = self.network.tasks[id].work
        starts = grid[work.allowed(grid)]
        ends = work.ends(starts)
        for rule in self.rules[id]:
            if self.keep_bookings or rule.booking is None:
                ok = rule.allowed(starts, ends)
                starts, ends = starts[ok], ends[ok]
        return _Laid(number, starts, ends)

    def problem(self) -> Problem:
        network = self.network
        hand_over = self.laid[HAND_OVER]
        costs = {rule.task: rule.weight for rule in network.of(CountedCost)}
        half_days = np.searchsorted(np.array(network.half_days, dtype=np.int64), hand_over.starts, side="right")
        return Problem(
            ids=tuple(network.tasks),
            slot=self.slot,
            base=self.base,
            starts=tuple((laid.starts - self.base) // self.slot for laid in self.laid.values()),
            arcs=tuple(self._arcs()),
            latests=tuple(self._latests()),
            groups=tuple(self._groups()),
            weights=tuple(costs.get(id, 0) for id in network.tasks),
            hand_over=hand_over.number,
            half_day=half_days.astype(np.int64),
            booked=self._bookings(),
        )

    def _up(self, minutes: NDArray[np.int64]) -> NDArray[np.int64]:
        return np.asarray(-((self.base - minutes) // self.slot))

    def _arcs(self) -> list[Arc]:
        found: dict[tuple[int, int], NDArray[np.int64]] = {}
        rules: list[Order | WaitFor] = [*self.network.of(Order), *self.network.of(WaitFor)]
        for rule in rules:
            before, after = self.laid[rule.before], self.laid[rule.after]
            release = self._up(rule.ready(before.ends) if isinstance(rule, WaitFor) else before.ends)
            pair = (before.number, after.number)
            found[pair] = np.maximum(found[pair], release) if pair in found else release
        return [Arc(before, after, release) for (before, after), release in found.items()]

    def _latests(self) -> list[Latest]:
        found: dict[tuple[int, int], NDArray[np.int64]] = {}
        for rule in self.network.of(Window):
            before, after = self.laid[rule.before], self.laid[rule.after]
            latest = (rule.latest(before.ends) - self.base) // self.slot
            pair = (before.number, after.number)
            found[pair] = np.minimum(found[pair], latest) if pair in found else latest
        return [Latest(before, after, latest) for (before, after), latest in found.items()]

    def _groups(self) -> list[Group]:
        groups = [Group(1, self._claims(rule.claims)) for rule in self.network.of(OneAtATime)]
        return groups + [Group(rule.n, self._claims(rule.claims)) for rule in self.network.of(AtMost)]

    def _claims(self, claims: tuple[Claim, ...]) -> tuple[SlotClaim, ...]:
        laid = []
        for claim in claims:
            last = self.laid[claim.closes_with]
            until = self._up(last.ends if claim.until is None else claim.until(last.ends))
            laid.append(SlotClaim(self.laid[claim.task].number, last.number, until, claim.amount))
        return tuple(laid)

    def _bookings(self) -> dict[int, int]:
        booked = {}
        for rule in self.network.of(AllowedStarts):
            if rule.booking is not None:
                laid = self.laid[rule.task]
                at = laid.starts[rule.allowed(laid.starts, laid.ends)]
                booked[laid.number] = int((at[0] - self.base) // self.slot) if len(at) else -1
        return booked
