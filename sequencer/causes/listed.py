"""Everything in a job that could be given so that an order of work fits, what is easiest to give first."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.causes.people import hands_for_all, missing_days
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job


def causes_of(job: Job) -> tuple[Cause, ...]:
    """What binds a job beside hours, hands-on work and the order of its recipes.

    Firm visits stand last: they are given up before it is said that no order fits, so others are to blame first.
    """
    booked = (Cause("booking", booking.step) for booking in job.bookings)
    return tuple(dict.fromkeys((*_people(job), *_house(job), *_wishes(job), *_materials(job), *booked)))


def _people(job: Job) -> Iterator[Cause]:
    yield from (Cause("delivery", order.name) for order in job.orders)
    yield from (Cause("decision", one.name) for one in job.decisions)
    working = {step.trade for step in job.steps}
    asked = {job.step(id).trade for id in job.asked}
    for trade in (trade for trade in job.trades.values() if trade.name in working):
        if trade.earliest is not None or trade.ask_by or trade.name in asked:
            yield Cause("notice", trade.name)
        if trade.cushion:
            yield Cause("cushion", trade.name)
        if trade.shortest_visit:
            yield Cause("shortest visit", trade.name)
        if trade.travel:
            yield Cause("travel", trade.name)
        if missing_days(job, trade):
            yield Cause("days", trade.name)
        if trade.hour_known and hands_for_all(job, trade) > trade.hands:
            yield Cause("hands", trade.name)


def _house(job: Job) -> Iterator[Cause]:
    yield from (Cause("service", name) for name in job.house.services)
    if job.house.noise is not None:
        yield Cause("noise", "")
    if job.house.lived_in:
        yield Cause("one day", "")
    if job.house.access is not None:
        yield Cause("access", "")
    if job.house.lift is not None:
        yield Cause("lift", "")
    if job.house.fumes_gone:
        yield Cause("fumes at night", "")
    yield from (Cause("toilet", absence.off) for absence in job.house.absences)


def _wishes(job: Job) -> Iterator[Cause]:
    for step in job.steps:
        for link in step.links:
            if link.why == "my order":
                yield Cause("my order", step.id, link.id)
    yield from (Cause("room", room.name) for room in job.rooms)


def _materials(job: Job) -> Iterator[Cause]:
    for step in job.steps:
        yield from (Cause("within", step.id, wait.purpose) for wait in step.waits if wait.within_minutes is not None)
    for step in job.steps:
        limits = (*step.air, *(limit for wait in step.waits for limit in wait.limits))
        yield from (Cause("air", step.id, str(limit.place)) for limit in limits)
    for step in job.steps:
        if step.look_in is not None:
            yield Cause("look in", step.id)
        if step.fumes is not None:
            yield Cause("fumes", step.id)
    for step in job.steps:
        if step.closing is not None and step.closing.until_done is not None:
            yield Cause("closing", step.id)
        if step.kind == "hold":
            yield Cause("inspection", step.id)
    for step in job.steps:
        yield from (Cause("wait", step.id, wait.purpose) for wait in step.waits)
