"""A visit that is not booked starts no sooner than the trade's notice, or the office's last hour for asking, allows.

A firm visit may stand at its hour; should it be given up, it needs notice like any other.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Trade
from sequencer.terms.minute import Minute


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step of a trade with notice or a last hour for asking."""
    booked = {booking.step: booking.at for booking in case.job.bookings}
    for step in case.job.steps:
        trade, firm, since = case.job.trades[step.trade], booked.get(step.id), case.job.asked.get(step.id)
        earliest = trade.earliest if since is None else since.earliest
        cause = Cause("notice", trade.name)
        if earliest is not None:
            text = f"{trade.name} needs {trade.notice_words or 'notice'}"
            yield AllowedStarts(step.id, _asked(earliest, firm), Why("people", text, trade.place, None, cause))
        if trade.ask_by:
            text = f"too late to ask {trade.name} for an earlier day"
            asked = _asked(_asked_in_time(trade, case.job.now if since is None else since.at), firm)
            yield AllowedStarts(step.id, asked, Why("inspection", text, trade.place, None, cause))


@lru_cache(maxsize=64)
def not_before(moment: Minute) -> StartTest:
    """Allowed from a moment on."""

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(starts >= moment)

    return allowed


def _asked(moment: Minute, firm: Minute | None) -> StartTest:
    """Allowed from a moment on, and at the hour of a firm visit."""

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray((starts >= moment) | (starts == firm))

    return not_before(moment) if firm is None else allowed


def _asked_in_time(trade: Trade, now: Minute) -> Minute:
    days = zip(trade.days, trade.ask_by, strict=True)
    return next((day.spans[0][0] for day, last in days if last >= now), trade.days[-1].spans[-1][1])
