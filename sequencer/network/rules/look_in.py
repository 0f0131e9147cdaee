"""What must not be left alone for long: its recipe goes on before anybody has been away for longer than that.

You can look in in your working hours, and who lives in the house while they are awake; nights and weekends count.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import MinuteFunction, Minutes, Rule, Why, Window
from sequencer.terms.cause import Cause
from sequencer.terms.hearing import same_use
from sequencer.terms.minute import Span
from sequencer.waits.progress import NEVER
from sequencer.waits.words import length


def rules(case: Case) -> Iterator[Rule]:
    """A window for every step of the same recipe that follows what must be looked after."""
    away = _away(case)

    @cache
    def latest(minutes: int) -> MinuteFunction:
        return _before_left_alone(away, minutes)

    for hearing in case.hearings:
        giver, listener = hearing.giver, hearing.listener
        if giver.look_in is not None and same_use(giver, listener):
            text = f"{giver.title}: somebody has to look in every {length(giver.look_in.minutes)}"
            why = Why("people", text, giver.look_in.place, giver.id, Cause("look in", giver.id))
            yield Window(giver.id, listener.id, latest(giver.look_in.minutes), why)


def _away(case: Case) -> list[Span]:
    """The stretches in which nobody can look in, in order."""
    own = case.openings[case.job.hand_over_trade]
    shut = list(zip([0, *own.closes.tolist()], [*own.opens.tolist(), NEVER], strict=True))
    if not case.job.house.lived_in:
        return shut
    nights = [*case.job.house.nights, (case.job.house.nights[-1][1], NEVER)] if case.job.house.nights else shut
    return _shared(shut, nights)


def _shared(some: list[Span], others: list[Span]) -> list[Span]:
    """The stretches that lie in both of two lists of stretches, each in order."""
    found, one, other = [], 0, 0
    while one < len(some) and other < len(others):
        start, end = max(some[one][0], others[other][0]), min(some[one][1], others[other][1])
        if start < end:
            found.append((start, end))
        if some[one][1] < others[other][1]:
            one += 1
        else:
            other += 1
    return found


def _before_left_alone(away: list[Span], minutes: int) -> MinuteFunction:
    """For an end of work, the last moment before nobody could have looked in for so long [min]."""
    long = [(start, end) for start, end in away if end - start > minutes]
    starts = np.array([start for start, _ in long] + [NEVER], dtype=np.int64)
    last_ends = np.array([end - minutes for _, end in long], dtype=np.int64)

    def latest(ends: Minutes) -> Minutes:
        first = np.searchsorted(last_ends, ends, side="right")
        return np.minimum(np.maximum(starts[first], ends), NEVER - minutes) + minutes

    return latest
