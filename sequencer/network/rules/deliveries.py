"""Nothing starts before its material is on site; what is made to measure arrives a lead after the measuring."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, MinuteFunction, Minutes, Rule, WaitFor, Why
from sequencer.network.rules.notice import not_before
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Span
from sequencer.waits.progress import NEVER


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts or a wait for every step that uses an order."""
    known: dict[int, MinuteFunction] = {}
    for order in case.job.orders:
        for step in order.for_steps:
            text, cause = f"{order.item} is not on site before", Cause("delivery", order.name)
            why = Why("delivery", text, order.place, order.made_after, cause)
            if order.arrives is not None:
                yield AllowedStarts(step, not_before(order.arrives), why)
            if order.made_after is not None:
                if order.lead_days not in known:
                    known[order.lead_days] = lead(case.job.working_days, order.lead_days)
                yield WaitFor(order.made_after, step, known[order.lead_days], why)


def lead(working_days: tuple[Span, ...], days: int) -> MinuteFunction:
    """The end of the `days`-th working day after the day of a moment; NEVER if the calendars end before."""
    starts = np.array([start for start, _ in working_days], dtype=np.int64)
    ends = np.array([*(end for _, end in working_days), NEVER], dtype=np.int64)

    def arrives(moments: Minutes) -> Minutes:
        today = np.searchsorted(starts, moments, side="right") - 1
        return np.asarray(ends[np.clip(today + days, 0, len(ends) - 1)])

    return arrives
