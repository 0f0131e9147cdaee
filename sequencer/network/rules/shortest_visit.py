"""Nobody comes for less than the trade's shortest visit: no day of a step holds less, unless the step is shorter."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.minute import HOUR


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step of a trade with a shortest visit."""
    known: dict[tuple[Openings, int, int], StartTest] = {}
    for step in case.job.steps:
        trade = case.job.trades[step.trade]
        if trade.shortest_visit:
            least = min(trade.shortest_visit, step.minutes)
            text = f"{trade.name} does not come for less than {_in_words(trade.shortest_visit)}"
            why = Why("people", text, trade.place, None, Cause("shortest visit", trade.name))
            key = (case.hours_of(step), least, step.minutes)
            if key not in known:
                known[key] = _no_stub(*key)
            yield AllowedStarts(step.id, known[key], why)


def _no_stub(openings: Openings, least: int, minutes: int) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        first = np.minimum(openings.left_today(starts), minutes)
        last_day = np.minimum(minutes - first, openings.done_today(ends))
        whole = first == minutes
        return np.asarray((first >= least) & (whole | (last_day >= least)))

    return allowed


def _in_words(minutes: int) -> str:
    hours, rest = divmod(minutes, HOUR)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0))
