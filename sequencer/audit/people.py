"""Nobody is in two places, nobody comes unasked or sooner than asked, firm visits stand, material is on site."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from sequencer.audit.site import Site, overlap
from sequencer.audit.slow_wait import NEVER
from sequencer.terms.arranged import Order
from sequencer.terms.job import Trade
from sequencer.terms.minute import Minute


def broken(site: Site) -> Iterator[str]:
    """Hands, travel, notice, bookings, deliveries."""
    for trade in site.job.trades.values():
        if trade.hour_known:
            yield from _hands(site, trade)
    booked = {booking.step: booking.at for booking in site.job.bookings}
    for step in site.job.steps:
        trade, start = site.job.trades[step.trade], site.start(step)
        if step.id in booked:
            if start != booked[step.id]:
                yield f"{step.id} is not at the hour it is booked for"
            continue
        if trade.earliest is not None and start < trade.earliest:
            yield f"{step.id} comes sooner than the notice of {trade.name} allows"
        days = zip(trade.days, trade.ask_by, strict=False)
        asked = [last for day, last in days if day.spans[0][0] <= start < day.spans[-1][1]]
        if asked and asked[0] < site.job.now:
            yield f"{step.id}: it is too late to ask {trade.name} for that day"
    for order in site.job.orders:
        for id in order.for_steps:
            if site.start(site.job.step(id)) < _on_site(site, order):
                yield f"{id} starts before {order.item} is on site"


def _hands(site: Site, trade: Trade) -> Iterator[str]:
    steps = [step for step in site.job.steps if step.trade == trade.name]
    for step in steps:
        at = site.start(step)
        busy = sum(s.hands for s in steps if site.start(s) <= at < site.end(s))
        if busy > trade.hands:
            yield f"{step.id} needs more hands of {trade.name} than there are"
    for one, other in combinations(steps, 2):
        spans = [(site.start(s), site.end(s) + trade.travel) for s in (one, other)]
        if one.where != other.where and trade.travel and overlap(spans[0], spans[1]):
            yield f"{trade.name} has no time to travel between {one.id} and {other.id}"


def _on_site(site: Site, order: Order) -> Minute:
    if order.arrives is not None:
        return order.arrives
    if order.made_after is None:
        return site.job.start
    measured = site.end(site.job.step(order.made_after))
    arrivals = [measured, *(end for start, end in site.job.working_days if start > measured)]
    return arrivals[order.lead_days] if order.lead_days < len(arrivals) else NEVER
