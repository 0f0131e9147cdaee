"""Days on which a trade comes anyway, for a firm visit stands on them."""

from __future__ import annotations

from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import Span


def firm_days(job: Job, trade: Trade) -> dict[str, Span]:
    """Each such day, from its first open minute to its last, by the step of the visit."""
    return {
        booking.step: (day.spans[0][0], day.spans[-1][1])
        for booking in job.bookings
        for day in (trade.days if booking.trade == trade.name else ())
        if day.spans[0][0] <= booking.at < day.spans[-1][1]
    }
