"""A trade with a cushion is kept that far behind the work in front of it, in its own working time."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import MinuteFunction, Minutes, Rule, WaitFor, Why
from sequencer.terms.cause import Cause
from sequencer.waits.clock import WaitClock


def rules(case: Case) -> Iterator[Rule]:
    """A longer wait wherever a step of such a trade hears a step of another."""
    kept = {name: _Kept(case.openings[name], trade.cushion) for name, trade in case.job.trades.items()}
    for hearing in case.hearings:
        giver, trade = hearing.giver, case.job.trades[hearing.listener.trade]
        used = hearing.listener.id in case.job.cushion_used
        if trade.cushion and giver.trade != trade.name and not used:
            text = f"{trade.name} is kept a cushion behind {giver.title}"
            why = Why("people", text, trade.place, giver.id, Cause("cushion", trade.name))
            behind = kept[trade.name]
            after = case.by_clock(giver, hearing.wait, behind.ready) if hearing.wait else behind.work
            yield WaitFor(giver.id, hearing.listener.id, after, why)


class _Kept:
    """How far behind a trade is kept: so many minutes [min] of its own openings."""

    def __init__(self, openings: Openings, cushion: int) -> None:
        self.openings, self.cushion = openings, cushion

    def work(self, ends: Minutes) -> Minutes:
        """Behind an end of work."""
        return self.openings.advance(ends, self.cushion)

    def ready(self, clock: WaitClock) -> MinuteFunction:
        """Behind a layer that is ready."""

        def behind(ends: Minutes) -> Minutes:
            return self.work(clock.ready(ends))

        return behind
