"""When warmth costs time: a layer that is ready and too late again while nobody works."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from sequencer.terms.minute import Minute, Span
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.progress import NEVER, Bools, Minutes
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


def warmth_costs(clock: WaitClock, ends: Minutes, open_spans: Sequence[Span]) -> WarmthCosts | None:
    """Whether warmth takes the next step's start away after one of these ends of work, int64[m].

    `open_spans`: when the next step may start, in order. Of those without a start in this air the earliest that cooling
    gives one, with the least cooling that does; None if there is none, or if the wait has no latest start.
    """
    if clock.wait.within_minutes is None:
        return None
    lost, air = ends[shut(clock, ends, open_spans)], clock.air
    mended: list[tuple[Minute, int, WaitClock]] = []
    for cooler in range(1, COOLEST + 1):
        other = wait_clock(clock.wait, replace(air, temperature=air.temperature - cooler))
        mended += [(end, cooler, other) for end in lost[~shut(other, lost, open_spans)][:1].tolist()]
    if not mended:
        return None
    end, cooler, other = min(mended, key=lambda one: one[:2])
    (ready,), (latest,) = _window(clock, np.array([end], np.int64))
    later = int(other.ready(np.array([end], np.int64))[0])
    start = next(max(later, opens) for opens, closes in open_spans if closes > later)
    return WarmthCosts(int(ready) - end, int(latest) - end, cooler, later - end, start)


def shut(clock: WaitClock, ends: Minutes, open_spans: Sequence[Span]) -> Bools:
    """bool[m]: for ends of work, whether the window after them opens and closes while nobody works."""
    table = np.array(open_spans, np.int64).reshape(-1, 2)
    readies, latests = _window(clock, ends)
    opens = np.append(table[:, 0], NEVER)[np.searchsorted(table[:, 1], readies, side="right")]
    return np.asarray(np.maximum(readies, opens) > latests)


def warmth_words(costs: WarmthCosts) -> str:
    """What warmth costs, without a full stop."""
    return (
        f"in this air it is ready after {length(costs.ready)} and too late after {length(costs.latest)}, "
        "while nobody works; "
        f"{costs.cooler} C cooler it is ready after {length(costs.cooler_ready)}, when somebody does"
    )


def _window(clock: WaitClock, ends: Minutes) -> tuple[Minutes, Minutes]:
    readies = clock.ready(ends)
    latests = clock.latest(ends, readies)
    return readies, np.full_like(readies, NEVER) if latests is None else np.minimum(latests, NEVER - 1)
