"""A firm visit starts at the minute it is booked for."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Minute


def rules(case: Case) -> Iterator[Rule]:
    """One allowed start for each booking."""
    for booking in case.job.bookings:
        title = case.job.step(booking.step).title
        text, cause = f"{booking.trade} is booked for {title}", Cause("booking", booking.step)
        why = Why("people", text, booking.place, None, cause)
        yield AllowedStarts(booking.step, _at(booking.at), why, booking=booking.step)


def _at(moment: Minute) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(starts == moment)

    return allowed
