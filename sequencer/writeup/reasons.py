"""Why a step does not start sooner: the rule that lets go of it last, or the one that forbids what comes after."""

from __future__ import annotations

from sequencer.network.model import Why
from sequencer.plan import WaitedFor
from sequencer.terms.minute import DAY, Minute
from sequencer.writeup.holding import A_QUARTER, forbids, in_the_way, lets_go, trade_of
from sequencer.writeup.timed import Timed


def waited_for(timed: Timed, id: str) -> WaitedFor | None:
    """What a task waited for; None if it starts when the job does."""
    start = timed.start(id)
    last = max(lets_go(timed, id, start), key=lambda letting: letting.moment, default=None)
    freed = last.moment if last else timed.network.start
    moment = timed.network.tasks[id].work.next_start(max(freed, timed.network.start))
    if moment is None or start - moment < A_QUARTER:
        if last is None or _comes_later(timed, id, freed, start):
            return _trade_is_away(timed, id, start)
        return _said(last.why)
    forbidden = forbids(timed, id, moment, start)
    if forbidden is not None:
        return _said(forbidden.why)
    taken = in_the_way(timed, id, moment)
    if taken is not None:
        return _said(taken)
    return WaitedFor("material", None, "kept back so that what follows comes in time", None)


def _comes_later(timed: Timed, id: str, freed: Minute, start: Minute) -> bool:
    """True if what holds a task up for a day or more is that its trade is not there."""
    trade = timed.case.job.trades[trade_of(timed, id)]
    return trade.name != timed.case.job.hand_over_trade and start - freed >= DAY


def _trade_is_away(timed: Timed, id: str, start: Minute) -> WaitedFor | None:
    trade = timed.case.job.trades[trade_of(timed, id)]
    if start <= timed.network.start + DAY and trade.name == timed.case.job.hand_over_trade:
        return None
    kind = "people" if trade.hour_known else "inspection"
    return WaitedFor(kind, None, f"{trade.name} does not come before", trade.place)


def _said(why: Why) -> WaitedFor:
    return WaitedFor(why.kind, why.step, why.text, why.where)
