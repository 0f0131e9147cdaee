"""Nothing starts before its material is on site, and looked at by you where that takes time.

What is made to measure arrives a lead after the measuring.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, MinuteFunction, Minutes, Rule, WaitFor, Why
from sequencer.network.rules.notice import not_before
from sequencer.terms.arranged import Order
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Span
from sequencer.waits.progress import NEVER


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts or a wait for every step that uses an order."""
    known: dict[tuple[int, int], MinuteFunction] = {}
    own = case.openings[case.job.hand_over_trade]
    for order in case.job.orders:
        checked = "and checked " * bool(order.check)
        why = _why(order, f"{order.item} is not on site {checked}before")
        key = (order.lead_days, order.check)
        for step in order.for_steps:
            if order.arrives is not None:
                at = int(own.advance(np.array([order.arrives]), order.check)[0]) if order.check else order.arrives
                yield AllowedStarts(step, not_before(at), why)
            if order.made_after is not None:
                if key not in known:
                    known[key] = _checked(own, lead(case.job.working_days, order.lead_days), order.check)
                yield WaitFor(order.made_after, step, known[key], why)


def _why(order: Order, text: str) -> Why:
    return Why("delivery", text, order.place, order.made_after, Cause("delivery", order.name))


def _checked(own: Openings, arrives: MinuteFunction, minutes: int) -> MinuteFunction:
    """When what arrives has been looked at for so long [min] in your working hours."""

    def checked(moments: Minutes) -> Minutes:
        return own.advance(arrives(moments), minutes)

    return checked if minutes else arrives


def lead(working_days: tuple[Span, ...], days: int) -> MinuteFunction:
    """The end of the `days`-th working day after the day of a moment; NEVER if the calendars end before."""
    starts = np.array([start for start, _ in working_days], dtype=np.int64)
    ends = np.array([*(end for _, end in working_days), NEVER], dtype=np.int64)

    def arrives(moments: Minutes) -> Minutes:
        today = np.searchsorted(starts, moments, side="right") - 1
        return np.asarray(ends[np.clip(today + days, 0, len(ends) - 1)])

    return arrives
