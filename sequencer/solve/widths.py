"""The width of every task's own grid: fine only for who must meet a short window or works odd hours."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable

import numpy as np

from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, MinuteFunction, Minutes, Network, WaitFor, Window
from sequencer.terms.minute import HOUR, Minute

COARSE, FINE, FINEST = 15, 5, 1
"""Widths of a task's grid [min]: the usual one; for a window under an hour or hours off the quarter; for odd hours, a
visit booked off the five minutes, a window under them."""

DAYS_SEEN = 14
"""Openings looked at for odd hours: two weeks of days, more than any weekly pattern has."""


def widths(network: Network) -> dict[str, int]:
    """The width of every task's own grid [min]."""
    hurried = _rooms_to_follow(network)
    booked = {rule.task: rule for rule in network.of(AllowedStarts) if rule.booking is not None}
    fine_grid = np.arange(base_of(network), network.horizon, FINE, dtype=np.int64) if booked else np.array([], np.int64)
    odd = {
        openings: {int(opening) % HOUR for opening in openings.opens[:DAYS_SEEN]}
        for openings in {task.work.openings for task in network.tasks.values()}
    }
    found = {}
    for id, task in network.tasks.items():
        hours = odd[task.work.openings]
        off_grid = id in booked and not booked[id].allowed(fine_grid, fine_grid).any()
        room = hurried.get(id, HOUR)
        if off_grid or room < FINE or any(hour % FINE for hour in hours):
            found[id] = FINEST
        else:
            fine = room < HOUR or id in booked or any(hour % COARSE for hour in hours)
            found[id] = FINE if fine else COARSE
    return found


def base_of(network: Network) -> Minute:
    """The first minute of every grid."""
    return -(-network.start // COARSE) * COARSE


def _rooms_to_follow(network: Network) -> dict[str, int]:
    """The narrowest window of every task that has one, between ready and latest, of all ends it can be met after [min].

    Ends are looked at for every quarter of an hour in which the task before can start.
    """
    waits: dict[tuple[str, str], list[MinuteFunction]] = defaultdict(list)
    for rule in network.of(WaitFor):
        waits[rule.before, rule.after].append(rule.ready)
    grid = np.arange(base_of(network), network.horizon, COARSE, dtype=np.int64)
    known: dict[Hashable, int] = {}
    ends: dict[Hashable, Minutes] = {}
    hurried: dict[str, int] = {}
    for window in network.of(Window):
        work, ready = network.tasks[window.before].work, waits[window.before, window.after]
        hours = network.tasks[window.after].work.openings
        key = (work.alike, hours, window.latest, *ready)
        if key not in known:
            if work.alike not in ends:
                ends[work.alike] = work.ends(grid[work.allowed(grid)])
            known[key] = _narrowest(ends[work.alike], ready, window.latest, hours)
        hurried[window.after] = min(known[key], hurried.get(window.after, HOUR))
    return hurried


def _narrowest(ends: Minutes, ready: Iterable[MinuteFunction], latest: MinuteFunction, hours: Openings) -> int:
    """The least room a window leaves after one of these ends, in hours that it can be met in; an hour at most [min]."""
    first, last = np.maximum.reduce([ends, *(one(ends) for one in ready)]), latest(ends)
    met = (first <= last) & (hours.worked(first) < hours.worked(last + 1))
    return int(np.min(last - first, where=met, initial=HOUR))
