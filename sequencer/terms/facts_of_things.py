"""What facts do to the things of a job: orders that come or come short, air and layers that a meter read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from sequencer.terms.air import AirReading
from sequencer.terms.arranged import Decision, Order
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute
from sequencer.terms.wait import Measured


def ordered(job: Job, fact: Fact) -> Job:
    """An order is placed: on site when promised, else when the last day of its lead is over."""

    def placed(order: Order) -> Order:
        arrives = fact.at if fact.at is not None else after_lead(job, fact.happened, order.lead_days)
        return replace(order, ordered=fact.happened, arrives=arrives, made_after=None)

    return _with_order(job, fact, placed)


def delivered(job: Job, fact: Fact) -> Job:
    """An order is on site and checked; what came short is whole when the rest comes: as promised, else a lead later."""

    def here(order: Order) -> Order:
        since = order.ordered if order.ordered is not None else fact.happened
        if not fact.short:
            seen = replace(order, arrives=fact.happened, delivered=fact.happened, check=0)
            return replace(seen, ordered=since, made_after=None)
        rest = fact.at if fact.at is not None else after_lead(job, fact.happened, order.lead_days)
        return replace(order, ordered=since, arrives=rest, made_after=None, delivered=None)

    return _with_order(job, fact, here)


def _with_order(job: Job, fact: Fact, change: Callable[[Order], Order]) -> Job:
    orders = (change(order) if order.name == fact.about else order for order in job.orders)
    return replace(job, orders=tuple(orders))


def after_lead(job: Job, moment: Minute, days: int) -> Minute:
    """The end of the last day of a lead that begins on a moment's day."""
    ends = [end for start, end in job.working_days if start > moment]
    return ends[days - 1] if len(ends) >= days else job.horizon


def not_yet_decided(job: Job) -> Job:
    """The job with every decision still to be made counted on from now: it takes the days it is asked before."""

    def still(decision: Decision) -> Decision:
        soonest = after_lead(job, job.now, decision.ask_days) if decision.ask_days else job.now
        return decision if decision.decided else replace(decision, stands=max(decision.stands, soonest))

    return replace(job, decisions=tuple(map(still, job.decisions)))


def not_yet_here(job: Job, begun: frozenset[str]) -> Job:
    """The job with every order that nobody has seen on site counted on from now at the soonest, and said to be.

    `begun`: ids of steps that have begun; what one of them needs is there. What is not ordered needs its whole lead.
    """
    orders, assumed = [], []
    open_until = {decision.name: decision.stands - 1 for decision in job.decisions if not decision.decided}
    for order in job.orders:
        seen = order.delivered is not None or not begun.isdisjoint(order.for_steps)
        if seen or order.arrives is None:
            orders.append(order)
            continue
        placed = max(job.now, open_until.get(order.decision or "", job.now))
        soonest = job.now if order.ordered is not None else after_lead(job, placed, order.lead_days)
        if order.ordered is not None and order.arrives <= job.now:
            assumed.append(f"{order.item}: should be on site, not told as delivered; counted on from now")
        orders.append(replace(order, arrives=max(order.arrives, soonest)))
    return replace(job, orders=tuple(orders), assumed=(*job.assumed, *assumed))


def air_read(job: Job, fact: Fact) -> Job:
    """The air of a room as a meter read it."""
    reading = AirReading(fact.happened, fact.temperature, fact.humidity, fact.place)

    def read(readings: tuple[AirReading, ...]) -> tuple[AirReading, ...]:
        return tuple(sorted((*readings, reading), key=lambda one: one.at))

    rooms = (
        replace(room, air=replace(room.air, readings=read(room.air.readings))) if room.name == fact.about else room
        for room in job.rooms
    )
    return replace(job, rooms=tuple(rooms))


def layer_read(job: Job, fact: Fact) -> Job:
    """A layer is ready, or not ready yet, by a reading of its own: the newest counts."""
    read = Measured(fact.happened, fact.ready, fact.reading, fact.place)

    def of(step: Step) -> Step:
        waits = (
            replace(wait, measured=read)
            if wait.purpose == fact.purpose and (wait.measured is None or wait.measured.at <= read.at)
            else wait
            for wait in step.waits
        )
        return replace(step, waits=tuple(waits)) if step.id == fact.about else step

    return replace(job, steps=tuple(map(of, job.steps)))
