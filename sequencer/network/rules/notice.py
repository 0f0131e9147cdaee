"""A visit that is not asked for yet starts no sooner than the trade's notice, or the office's last hour, allows.

On a day for which a firm visit stands they come anyway: nothing more has to be asked. Should that visit be given up,
all that was to be done on its day needs notice like any other.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import lru_cache

import numpy as np

from sequencer.network.case import Case
from sequencer.network.firm_days import firm_days
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import Minute, Span


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step of a trade with notice or a last hour for asking."""
    known: dict[tuple[str, Minute], _Asked] = {}
    for step in case.job.steps:
        trade, since = case.job.trades[step.trade], case.job.asked.get(step.id)
        earliest = trade.earliest if since is None else since.soonest
        cause = Cause("notice", trade.name)
        if earliest is not None:
            text = f"{trade.name} needs {trade.notice_words or 'notice'}"
            if since is not None and since.wanted == earliest:
                text = f"{trade.name} is asked for then"
            asked = known.setdefault((trade.name, earliest), _Asked(case.job, trade, earliest))
            yield asked.rule(step.id, Why("people", text, trade.place, None, cause))
        if trade.ask_by:
            text = f"too late to ask {trade.name} for an earlier day"
            first = _asked_in_time(trade, case.job.now if since is None else since.at)
            asked = known.setdefault((trade.name, first), _Asked(case.job, trade, first))
            yield asked.rule(step.id, Why("inspection", text, trade.place, None, cause))


class _Asked:
    """Starts from a moment on, and on the days of a trade's firm visits as long as these stand."""

    def __init__(self, job: Job, trade: Trade, moment: Minute) -> None:
        self.moment = moment
        self.days = firm_days(job, trade)
        self.tests: dict[frozenset[str], StartTest] = {}

    def rule(self, step: str, why: Why) -> AllowedStarts:
        return AllowedStarts(step, self.without(()), why, without=self.without if self.days else None)

    def without(self, given_up: Collection[str]) -> StartTest:
        """What is allowed when some firm visits are given up; the same test for the same days."""
        left = frozenset(self.days) - frozenset(given_up)
        if left not in self.tests:
            self.tests[left] = _from(self.moment, sorted({self.days[step] for step in left}))
        return self.tests[left]


@lru_cache(maxsize=64)
def not_before(moment: Minute) -> StartTest:
    """Allowed from a moment on."""

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(starts >= moment)

    return allowed


def _from(moment: Minute, days: list[Span]) -> StartTest:
    """Allowed from a moment on, and in some spans before it."""
    sooner = [span for span in days if span[0] < moment]

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        asked = starts >= moment
        for start, end in sooner:
            asked |= (starts >= start) & (starts < end)
        return np.asarray(asked)

    return allowed if sooner else not_before(moment)


def _asked_in_time(trade: Trade, now: Minute) -> Minute:
    days = zip(trade.days, trade.ask_by, strict=True)
    return next((day.spans[0][0] for day, last in days if last >= now), trade.days[-1].spans[-1][1])
