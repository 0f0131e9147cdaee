"""A visit that is not booked starts no sooner than the trade's notice, or the office's last hour for asking, allows."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Trade
from sequencer.terms.minute import Minute


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step of a trade with notice or a last hour for asking."""
    for step in case.job.steps:
        trade = case.job.trades[step.trade]
        if step.id in case.booked:
            continue
        cause = Cause("notice", trade.name)
        if trade.earliest is not None:
            text = f"{trade.name} needs {trade.notice_words or 'notice'}"
            yield AllowedStarts(step.id, not_before(trade.earliest), Why("people", text, trade.place, None, cause))
        if trade.ask_by:
            text = f"too late to ask {trade.name} for an earlier day"
            asked = _asked_in_time(trade, case.job.now)
            yield AllowedStarts(step.id, not_before(asked), Why("inspection", text, trade.place, None, cause))


def not_before(moment: Minute) -> StartTest:
    """Allowed from a moment on."""

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(starts >= moment)

    return allowed


def _asked_in_time(trade: Trade, now: Minute) -> Minute:
    days = zip(trade.days, trade.ask_by, strict=True)
    return next((day.spans[0][0] for day, last in days if last >= now), trade.days[-1].spans[-1][1])
