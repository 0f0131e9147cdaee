"""Nobody is in two places or comes unasked, firm visits stand, material is on site, decisions are made."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from sequencer.audit.days import day_at
from sequencer.audit.site import Site
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
        day = day_at(trade, start) if trade.ask_by else None
        if day is not None and trade.ask_by[day] < (site.job.now if since is None else since.at):
            yield f"{step.id}: it is too late to ask {trade.name} for that day"
    for order in site.job.orders:
        there = _on_site(site, order)
        for id in order.for_steps:
            step = site.job.step(id)
            if site.start(step) < there and not site.behind(step):
                yield f"{id} starts before {order.item} is on site"
    for decision in site.job.decisions:
        for id in decision.for_steps:
            step = site.job.step(id)
            if site.start(step) < decision.stands and not site.behind(step):
                yield f"{id} starts before {decision.by} decides on {decision.name}"


def they_come_anyway(site: Site, trade: Trade, moment: Minute) -> bool:
    """True on a day for which a firm visit of a trade stands."""
    firm = site.firm_visits(trade.name)
    day = day_at(trade, moment) if firm else None
    return day is not None and any(day_at(trade, at) == day for at in firm)


def _hands(site: Site, trade: Trade) -> Iterator[str]:
    steps = sorted(site.of_trade(trade.name), key=site.start)
    there: list[Step] = []
    for at, together in groupby(steps, site.start):
        begun = list(together)
        there = [step for step in (*there, *begun) if site.end(step) > at]
        if sum(step.hands for step in there) > trade.hands:
            for step in begun:
                if not site.behind(step):
                    yield f"{step.id} needs more hands of {trade.name} than there are"
    if trade.travel:
        yield from _travel(site, trade, steps)


def _travel(site: Site, trade: Trade, steps: list[Step]) -> Iterator[str]:
    """Ways that are too short, of steps by start: in each place those that are still there, or just leave it."""
    there: list[Step] = []
    for step in steps:
        there = [one for one in there if site.start(step) < site.end(one) + trade.travel]
        for one in there:
            if one.where != step.where and not site.behind(one, step):
                yield f"{trade.name} has no time to travel between {one.id} and {step.id}"
        there.append(step)


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
