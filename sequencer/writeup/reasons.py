"""Why a step does not start sooner: the rule that lets go of it last, or the one that forbids what comes after."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.model import HAND_OVER, AllowedStarts, Claim, WaitFor, Why
from sequencer.network.taken import taken_by
from sequencer.plan import WaitedFor
from sequencer.terms.minute import DAY, Minute
from sequencer.writeup.timed import Timed, at

A_QUARTER = 15
"""Starts are given to the quarter of an hour: a step this near to what let it go waited for nothing else [min]."""


def waited_for(timed: Timed, id: str) -> WaitedFor | None:
    """What a task waited for; None if it starts when the job does."""
    start = timed.start(id)
    freed, why = max(_lets_go(timed, id, start), key=lambda pair: pair[0], default=(timed.network.start, None))
    work = timed.network.tasks[id].work
    moment = work.next_start(max(freed, timed.network.start))
    if moment is None or start - moment < A_QUARTER:
        if why is None or _comes_later(timed, id, freed, start):
            return _trade_is_away(timed, id, start)
        return _said(why)
    forbidden = _forbids(timed, id, moment, start)
    if forbidden is not None:
        return _said(forbidden)
    taken = _in_the_way(timed, id, moment)
    if taken is not None:
        return _said(taken)
    return WaitedFor("material", None, "kept back so that what follows comes in time", None)


def _lets_go(timed: Timed, id: str, start: Minute) -> Iterator[tuple[Minute, Why]]:
    """The moments at which others let go of a task, none after its start."""
    for rule in timed.binding[id]:
        end = timed.end(rule.before)
        yield at(rule.ready, end) if isinstance(rule, WaitFor) else end, rule.why
    for group in timed.sharing[id]:
        for claim in group.claims:
            until = timed.until(claim)
            if claim.task != id and timed.start(claim.task) < start and until <= start:
                yield until, _taken_by(timed, claim, group.why)


def _comes_later(timed: Timed, id: str, freed: Minute, start: Minute) -> bool:
    """True if what holds a task up for a day or more is that its trade is not there."""
    trade = timed.case.job.trades[_trade(timed, id)]
    return trade.name != timed.case.job.hand_over_trade and start - freed >= DAY


def _trade_is_away(timed: Timed, id: str, start: Minute) -> WaitedFor | None:
    trade = timed.case.job.trades[_trade(timed, id)]
    if start <= timed.network.start + DAY and trade.name == timed.case.job.hand_over_trade:
        return None
    kind = "people" if trade.hour_known else "inspection"
    return WaitedFor(kind, None, f"{trade.name} does not come before", trade.place)


def _forbids(timed: Timed, id: str, moment: Minute, start: Minute) -> Why | None:
    """The rule that forbids a start at a moment, or else the most of the time from then to the start."""
    work = timed.network.tasks[id].work
    moments = np.arange(moment, start, A_QUARTER, dtype=np.int64)
    moments = moments[work.allowed(moments)]
    ends = work.ends(moments)
    worst: tuple[int, Why] | None = None
    for rule in timed.network.of(AllowedStarts):
        if rule.task == id and len(moments):
            allowed = rule.allowed(moments, ends)
            forbidden = int(np.count_nonzero(~allowed))
            if not allowed[0] and (worst is None or forbidden > worst[0]):
                worst = (forbidden, rule.why)
    return worst[1] if worst else None


def _in_the_way(timed: Timed, id: str, moment: Minute) -> Why | None:
    """The claim a task would run into if it started at a moment."""
    end = at(timed.network.tasks[id].work.ends, moment)
    for group in timed.sharing[id]:
        for own in (claim for claim in group.claims if claim.task == id):
            until = end if own.until is None or own.last else at(own.until, end)
            for claim in group.claims:
                if claim.task != id and timed.start(claim.task) < until and moment < timed.until(claim):
                    return _taken_by(timed, claim, group.why)
    return None


def _taken_by(timed: Timed, claim: Claim, what: Why) -> Why:
    closed = timed.until(claim) > timed.end(claim.task)
    return taken_by(what, claim, _title(timed, claim.task), closed)


def _said(why: Why) -> WaitedFor:
    return WaitedFor(why.kind, why.step, why.text, why.where)


def _title(timed: Timed, id: str) -> str:
    return "hand-over" if id == HAND_OVER else timed.case.job.step(id).title


def _trade(timed: Timed, id: str) -> str:
    return timed.case.job.hand_over_trade if id == HAND_OVER else timed.case.job.step(id).trade
