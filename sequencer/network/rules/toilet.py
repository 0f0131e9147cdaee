"""The only toilet is back in time: every absence spans no more nights than the house allows."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

import numpy as np

from sequencer.network.case import Case
from sequencer.network.hours import WorkClock
from sequencer.network.model import MinuteFunction, Minutes, Rule, Why, Window
from sequencer.network.tasks import work_clock
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Minute, Span
from sequencer.waits.progress import NEVER


def rules(case: Case) -> Iterator[Rule]:
    """A window for every step that gives the toilet back."""
    house = case.job.house
    for absence in house.absences:
        off, back = case.job.step(absence.off), case.job.step(absence.back)
        nights = "no night" if not absence.nights else f"{absence.nights} night{'s' * (absence.nights > 1)} at most"
        text = f"{off.title}: the house is without its toilet for {nights}"
        why = Why("house", text, house.place_of("only toilet"), off.id, Cause("toilet", off.id))
        last = partial(_last_starts, work_clock(case, back), case.job.start, case.job.horizon)
        yield Window(off.id, back.id, _back_before(house.nights, absence.nights, last), why)


def _last_starts(work: WorkClock, first: Minute, out: Minute, moments: Minutes) -> Minutes:
    """For each moment the last start from `first` and before `out` with which a step is done by then; the minute before
    `first` if there is none."""
    low, high = np.full(len(moments), first - 1, dtype=np.int64), np.full(len(moments), out, dtype=np.int64)
    while (high - low > 1).any():
        middle = (low + high) // 2
        done = work.ends(middle) <= moments
        low, high = np.where(done, middle, low), np.where(done, high, middle)
    return low


def _back_before(nights: tuple[Span, ...], allowed: int, last_starts: Callable[[Minutes], Minutes]) -> MinuteFunction:
    starts = np.array([start for start, _ in nights] + [NEVER] * (allowed + 1), dtype=np.int64)
    ends, last = np.array([end for _, end in nights], dtype=np.int64), last_starts(starts)

    def latest(moments: Minutes) -> Minutes:
        return last[np.searchsorted(ends, moments, side="right") + allowed]

    return latest
