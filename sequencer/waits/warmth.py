"""When warmth costs time: a layer that is ready and too late again while nobody works."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from sequencer.terms.minute import Minute, Span
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.progress import NEVER
from sequencer.waits.words import length

COOLEST = 8
"""How much cooler a room is tried [C]."""


@dataclass(frozen=True)
class WarmthCosts:
    """In this air the next step has no start; so much cooler [C] it has one, at `start`.

    `ready`, `latest`, `cooler_ready` [min] after the end of work.
    """

    ready: int
    latest: int
    cooler: int
    cooler_ready: int
    start: Minute


def warmth_costs(clock: WaitClock, end: Minute, open_spans: Sequence[Span]) -> WarmthCosts | None:
    """Whether warmth takes the next step's start away; `open_spans`: when it may start, in order.

    None if the wait has no latest start, if there is a start in this air, or if no cooler air gives one.
    """
    ready, latest, start = _first_start(clock, end, open_spans)
    if latest is None or start is not None:
        return None
    for cooler in range(1, COOLEST + 1):
        air = replace(clock.air, temperature=clock.air.temperature - cooler)
        later, _, found = _first_start(wait_clock(clock.wait, air), end, open_spans)
        if found is not None and later < NEVER:
            return WarmthCosts(ready - end, latest - end, cooler, later - end, found)
    return None


def warmth_words(costs: WarmthCosts) -> str:
    """What warmth costs, without a full stop."""
    return (
        f"in this air it is ready after {length(costs.ready)} and too late after {length(costs.latest)}, "
        "while nobody works; "
        f"{costs.cooler} C cooler it is ready after {length(costs.cooler_ready)}, when somebody does"
    )


def _first_start(
    clock: WaitClock, end: Minute, open_spans: Sequence[Span]
) -> tuple[Minute, Minute | None, Minute | None]:
    """Ready, the latest start, and the first start between them in an open span."""
    ends = np.array([end], np.int64)
    readies = clock.ready(ends)
    ready, latests = int(readies[0]), clock.latest(ends, readies)
    if latests is None:
        return ready, None, None
    latest = int(latests[0])
    starts = (max(ready, first) for first, out in open_spans if out > ready)
    start = next(starts, None)
    return ready, latest, start if start is not None and start <= latest else None
