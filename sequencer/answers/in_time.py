"""Whether anybody can start in time after an end of work, by working hours alone; else when to end it instead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings, WorkClock
from sequencer.terms.minute import DAY, HOUR, Minute, Span
from sequencer.waits.clock import WaitClock
from sequencer.waits.progress import NEVER
from sequencer.waits.warmth import warmth_costs, warmth_words

EVERY = HOUR // 4
"""How close together the ends of work are tried [min]."""
AROUND = 2 * DAY
"""How far from the end of work they are tried [min]."""


@dataclass(frozen=True)
class Missed:
    """Nobody can start what follows in time, and why. `end_by`: the last sooner end of work after which somebody can.

    `end_at`: where there is none, the first later one; None if there is none either.
    """

    why: str
    end_by: Minute | None
    end_at: Minute | None


def missed(
    wait: WaitClock, work: WorkClock, end: Minute, following: Sequence[WorkClock], movable: bool
) -> Missed | None:
    """What is wrong with an end of `work`, None if all that follows it can start in time, or need not hurry.

    `following`: the hours of the steps that hear the wait. `movable`: the work may also end sooner.
    """
    if _in_time(wait, np.array([end], np.int64), following)[0]:
        return None
    starts = np.arange(end - AROUND, end + AROUND, EVERY, dtype=np.int64) // EVERY * EVERY
    ends = work.ends(starts[work.allowed(starts)])
    good = np.unique(ends[_in_time(wait, ends, following)]) if len(ends) else ends
    sooner, later = good[good < end], good[good > end]
    by = int(sooner[-1]) if movable and len(sooner) else None
    return Missed(_why(wait, work.openings, end), by, int(later[0]) if by is None and len(later) else None)


def _in_time(wait: WaitClock, ends: NDArray[np.int64], following: Sequence[WorkClock]) -> NDArray[np.bool_]:
    """bool[m]: for ends of work in order, whether each step that follows has a start between ready and too late."""
    readies = wait.ready(ends)
    latests = wait.latest(ends, readies)
    if latests is None:
        return np.ones(len(ends), np.bool_)
    soonest = [[_soonest(work, int(ready)) for ready in readies] for work in following]
    return np.asarray(np.all(np.array(soonest, np.int64).reshape(-1, len(ends)) <= latests, axis=0))


def _soonest(work: WorkClock, ready: Minute) -> Minute:
    start = None if ready >= NEVER else work.next_start(ready)
    return NEVER if start is None else start


def _why(wait: WaitClock, openings: Openings, end: Minute) -> str:
    spans: list[Span] = list(zip(openings.opens.tolist(), openings.closes.tolist(), strict=True))
    costs = warmth_costs(wait, np.array([end], np.int64), spans)
    return "ready and too late again while nobody works" if costs is None else warmth_words(costs)
