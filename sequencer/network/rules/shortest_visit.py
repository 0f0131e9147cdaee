"""Nobody comes for less than the trade's shortest visit: no day of a step holds less, unless the step is shorter.

A firm visit is agreed as it is, and on its day they come anyway: nothing more is asked of what else is done then.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.firm_days import firm_days
from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Step, Trade
from sequencer.terms.minute import HOUR, Span


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step of a trade with a shortest visit."""
    of_trades = {name: _Visits(case.job, trade) for name, trade in case.job.trades.items() if trade.shortest_visit}
    for step in case.job.steps:
        if step.trade in of_trades:
            yield of_trades[step.trade].rule(step, case.hours_of(step))


class _Visits:
    """Starts that leave no day with too little, but for days of firm visits as long as these stand."""

    def __init__(self, job: Job, trade: Trade) -> None:
        self.trade, self.days = trade, firm_days(job, trade)
        text = f"{trade.name} does not come for less than {_in_words(trade.shortest_visit)}"
        self.why = Why("people", text, trade.place, None, Cause("shortest visit", trade.name))
        self.tests: dict[tuple[Openings, int, int, frozenset[Span]], StartTest] = {}

    def rule(self, step: Step, openings: Openings) -> AllowedStarts:
        def without(given_up: Collection[str]) -> StartTest:
            left = {id: day for id, day in self.days.items() if id not in given_up}
            return _any if step.id in left else self._test(openings, step.minutes, frozenset(left.values()))

        return AllowedStarts(step.id, without(()), self.why, without=without if self.days else None)

    def _test(self, openings: Openings, minutes: int, firm: frozenset[Span]) -> StartTest:
        """The same test for steps alike."""
        key = (openings, min(self.trade.shortest_visit, minutes), minutes, firm)
        if key not in self.tests:
            self.tests[key] = _no_stub(*key)
        return self.tests[key]


def _no_stub(openings: Openings, least: int, minutes: int, firm: frozenset[Span]) -> StartTest:
    """Enough on the first day, on the last, and on each between: these are worked on from morning to evening."""
    first_spans = np.flatnonzero(np.diff(openings.day, prepend=-1))
    days, opens = openings.day[first_spans], openings.opens[first_spans]
    short = (openings.left_today(opens) < least) & ~_within(opens, firm)
    before = np.concatenate([[0], np.cumsum(short)])

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        first = np.minimum(openings.left_today(starts), minutes)
        last = np.minimum(minutes - first, openings.done_today(ends))
        whole = first == minutes
        begun, over = (
            days.searchsorted(openings.day[np.maximum(openings.span_at(at), 0)]) for at in (starts, ends - 1)
        )
        between = before[np.maximum(over, begun + 1)] - before[begun + 1]
        enough = (first >= least) | _within(starts, firm)
        return np.asarray(enough & (whole | (((last >= least) | _within(ends - 1, firm)) & (between == 0))))

    return allowed


def _within(moments: Minutes, spans: frozenset[Span]) -> Mask:
    inside = np.zeros(len(moments), dtype=np.bool_)
    for start, end in spans:
        inside |= (moments >= start) & (moments < end)
    return inside


def _any(starts: Minutes, ends: Minutes) -> Mask:
    return np.ones(len(starts), dtype=np.bool_)


def _in_words(minutes: int) -> str:
    hours, rest = divmod(minutes, HOUR)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0))
