"""Nobody is in two places or comes unasked, firm visits stand, material is on site, decisions are made."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, groupby

from sequencer.audit.site import Site, overlap
from sequencer.audit.slow_wait import NEVER
from sequencer.terms.arranged import Order
from sequencer.terms.job import Step, Trade
from sequencer.terms.minute import Minute


def broken(site: Site) -> Iterator[str]:
    """Hands, travel, notice, bookings, deliveries, decisions."""
    for trade in site.job.trades.values():
        if trade.hour_known:
            yield from _hands(site, trade)
    booked = {booking.step: booking.at for booking in site.job.bookings}
    for step in site.job.steps:
        trade, start = site.job.trades[step.trade], site.start(step)
        if site.behind(step):
            continue
        if step.id in booked:
            if start != booked[step.id]:
                yield f"{step.id} is not at the hour it is booked for"
            continue
        if they_come_anyway(site, trade, start):
            continue
        since = site.job.asked.get(step.id)
        earliest = trade.earliest if since is None else since.soonest
        if earliest is not None and start < earliest:
            yield f"{step.id} comes sooner than the notice of {trade.name} allows"
        days = zip(trade.days, trade.ask_by, strict=False)
        asked = [last for day, last in days if day.spans[0][0] <= start < day.spans[-1][1]]
        if asked and asked[0] < (site.job.now if since is None else since.at):
            yield f"{step.id}: it is too late to ask {trade.name} for that day"
    for order in site.job.orders:
        for id in order.for_steps:
            step = site.job.step(id)
            if site.start(step) < _on_site(site, order) and not site.behind(step):
                yield f"{id} starts before {order.item} is on site"
    for decision in site.job.decisions:
        for id in decision.for_steps:
            step = site.job.step(id)
            if site.start(step) < decision.stands and not site.behind(step):
                yield f"{id} starts before {decision.by} decides on {decision.name}"


def they_come_anyway(site: Site, trade: Trade, moment: Minute) -> bool:
    """True on a day for which a firm visit of a trade stands."""
    firm = [booking.at for booking in site.job.bookings if booking.trade == trade.name]
    days = [(day.spans[0][0], day.spans[-1][1]) for day in trade.days]
    return any(first <= at < last and first <= moment < last for first, last in days for at in firm)


def _hands(site: Site, trade: Trade) -> Iterator[str]:
    steps = [step for step in site.job.steps if step.trade == trade.name]
    there: list[Step] = []
    for at, together in groupby(sorted(steps, key=site.start), site.start):
        begun = list(together)
        there = [step for step in (*there, *begun) if site.end(step) > at]
        if sum(step.hands for step in there) > trade.hands:
            for step in begun:
                if not site.behind(step):
                    yield f"{step.id} needs more hands of {trade.name} than there are"
    for one, other in combinations(steps, 2) if trade.travel else ():
        spans = [(site.start(s), site.end(s) + trade.travel) for s in (one, other)]
        apart = one.where != other.where and not site.behind(one, other)
        if apart and overlap(spans[0], spans[1]):
            yield f"{trade.name} has no time to travel between {one.id} and {other.id}"


def _on_site(site: Site, order: Order) -> Minute:
    at = site.job.start if order.arrives is None else order.arrives
    if order.made_after is not None:
        measured = site.end(site.job.step(order.made_after))
        arrivals = [measured, *(end for start, end in site.job.working_days if start > measured)]
        at = max(at, arrivals[order.lead_days] if order.lead_days < len(arrivals) else NEVER)
    return _looked_at(site, at, order.check)


def _looked_at(site: Site, since: Minute, minutes: int) -> Minute:
    """When somebody who keeps the files has had so much working time since a moment."""
    if not minutes:
        return since
    for day in site.job.trades[site.job.hand_over_trade].days:
        for start, end in day.spans:
            there = max(start, since)
            if there + minutes <= end:
                return there + minutes
            minutes -= max(0, end - there)
    return NEVER
