"""A trade's hands: no more steps at once, across rooms, than it has hands; and time to travel between places."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from sequencer.network.case import Case
from sequencer.network.later import later
from sequencer.network.model import AtMost, Claim, OneAtATime, Rule, Why
from sequencer.terms.cause import Cause
from sequencer.terms.words import on_the_way, time_of


def rules(case: Case) -> Iterator[Rule]:
    """One group for each trade; who comes at an unknown hour sees all that is ready in one visit."""
    for trade in case.job.trades.values():
        steps = [step for step in case.job.steps if step.trade == trade.name]
        if not trade.hour_known or len(steps) < 2:
            continue
        why = Why("people", time_of(trade.name), trade.place, None, Cause("hands", trade.name))
        if trade.hands == 1:
            yield OneAtATime(tuple(Claim(step.id) for step in steps), why)
        else:
            yield AtMost(trade.hands, tuple(Claim(step.id, amount=step.hands) for step in steps), why)
        for one, other in combinations(steps, 2) if trade.travel else ():
            if one.where != other.where:
                way = later(trade.travel)
                road = Why("people", on_the_way(trade.name), trade.place, None, Cause("travel", trade.name))
                yield OneAtATime((Claim(one.id, way), Claim(other.id, way)), road)
