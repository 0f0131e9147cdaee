"""A trade with a cushion is kept that far behind the work in front of it, in its own working time."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import MinuteFunction, Minutes, Rule, WaitFor, Why
from sequencer.terms.cause import Cause
from sequencer.terms.hearing import hearings
from sequencer.waits.clock import WaitClock


def rules(case: Case) -> Iterator[Rule]:
    """A longer wait wherever a step of such a trade hears a step of another."""
    known: dict[tuple[WaitClock | None, str], MinuteFunction] = {}
    for hearing in hearings(case.job):
        trade = case.job.trades[hearing.listener.trade]
        if trade.cushion and hearing.giver.trade != trade.name:
            clock = case.clock(hearing.giver, hearing.wait) if hearing.wait else None
            text = f"{trade.name} is kept a cushion behind {hearing.giver.title}"
            key = (clock, trade.name)
            behind = known.setdefault(key, _behind(clock, case.openings[trade.name], trade.cushion))
            why = Why("people", text, trade.place, hearing.giver.id, Cause("cushion", trade.name))
            yield WaitFor(hearing.giver.id, hearing.listener.id, behind, why)


def _behind(clock: WaitClock | None, openings: Openings, cushion: int) -> MinuteFunction:
    def behind(ends: Minutes) -> Minutes:
        return openings.advance(clock.ready(ends) if clock else ends, cushion)

    return behind
