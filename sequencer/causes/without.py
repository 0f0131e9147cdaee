"""A job without some of what holds it up. The job itself is never changed; nights and weekends are never taken away."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from sequencer.causes.people import freed, hands_for_all, on_every_day
from sequencer.terms.cause import Cause, CauseKind
from sequencer.terms.job import Job, Room, Step, Trade
from sequencer.terms.wait import Wait

Removal = Callable[[Job, Cause], Job]


def without(job: Job, *causes: Cause) -> Job:
    """The job as it would be if these causes were gone: a wait has length 0, a person is free in his hours, an
    inspection or a delivery is ready at once, what a house or a room asks for is not asked."""
    for cause in causes:
        job = REMOVALS[cause.kind](job, cause)
    return job


def with_steps(job: Job, id: str, change: Callable[[Step], Step]) -> Job:
    """The job with one step changed."""
    return replace(job, steps=tuple(change(step) if step.id == id else step for step in job.steps))


def with_trade(job: Job, name: str, change: Callable[[Trade], Trade]) -> Job:
    """The job with one trade changed."""
    return replace(job, trades={key: change(one) if key == name else one for key, one in job.trades.items()})


def with_wait(job: Job, id: str, purpose: str, change: Callable[[Wait], Wait]) -> Job:
    """The job with one wait of a step changed."""

    def changed(step: Step) -> Step:
        return replace(step, waits=tuple(change(one) if one.purpose == purpose else one for one in step.waits))

    return with_steps(job, id, changed)


def _wait(job: Job, cause: Cause) -> Job:
    def at_once(wait: Wait) -> Wait:
        return replace(wait, hours=0.0, floor_hours=None, then=(), measured=None)

    return with_wait(job, cause.of, cause.what, at_once)


def _within(job: Job, cause: Cause) -> Job:
    return with_wait(job, cause.of, cause.what, lambda wait: replace(wait, within_minutes=None))


def _closing(job: Job, cause: Cause) -> Job:
    """What closes a surface until it is ready is a wait; what closes it until a step is done goes with its closing."""
    closing = job.step(cause.of).closing
    if closing is not None and closing.purpose is not None:
        return _wait(job, Cause("wait", cause.of, closing.purpose))
    return with_steps(job, cause.of, lambda step: replace(step, closing=None, wet_film=False))


def _air(job: Job, cause: Cause) -> Job:
    def bears(step: Step) -> Step:
        waits = tuple(
            replace(wait, limits=tuple(limit for limit in wait.limits if str(limit.place) != cause.what))
            for wait in step.waits
        )
        return replace(step, waits=waits, air=tuple(limit for limit in step.air if str(limit.place) != cause.what))

    return with_steps(job, cause.of, bears)


def _my_order(job: Job, cause: Cause) -> Job:
    def loose(step: Step) -> Step:
        links = (link for link in step.links if link.why != "my order" or link.id != cause.what)
        return replace(step, links=tuple(links))

    return with_steps(job, cause.of, loose)


def _room(job: Job, cause: Cause) -> Job:
    def wide(room: Room) -> Room:
        return replace(room, at_once=len(job.steps)) if room.name == cause.of else room

    return replace(job, rooms=tuple(wide(room) for room in job.rooms))


def _person(job: Job, cause: Cause) -> Job:
    kept = tuple(booking for booking in job.bookings if booking.trade != cause.of)
    return with_trade(_unasked(job, cause.of), cause.of, lambda trade: freed(job, trade)).with_bookings(kept)


def _unasked(job: Job, trade: str) -> Job:
    """The job without what a trade was asked for."""
    return replace(job, asked={id: since for id, since in job.asked.items() if job.step(id).trade != trade})


def _hands(job: Job, cause: Cause) -> Job:
    return with_trade(job, cause.of, lambda trade: replace(trade, hands=hands_for_all(job, trade)))


def _travel(job: Job, cause: Cause) -> Job:
    return with_trade(job, cause.of, lambda trade: replace(trade, travel=0))


def _elsewhere(job: Job, cause: Cause) -> Job:
    return replace(job, shared=job.shared - {cause.of})


def _days(job: Job, cause: Cause) -> Job:
    return with_trade(job, cause.of, lambda trade: on_every_day(job, trade))


def _notice(job: Job, cause: Cause) -> Job:
    unasked = _unasked(job, cause.of)
    return with_trade(unasked, cause.of, lambda trade: replace(trade, earliest=None, notice_days=0, ask_by=()))


def _cushion(job: Job, cause: Cause) -> Job:
    return with_trade(job, cause.of, lambda trade: replace(trade, cushion=0))


def _shortest_visit(job: Job, cause: Cause) -> Job:
    return with_trade(job, cause.of, lambda trade: replace(trade, shortest_visit=0))


def _booking(job: Job, cause: Cause) -> Job:
    return job.with_bookings(tuple(booking for booking in job.bookings if booking.step != cause.of))


def _inspection(job: Job, cause: Cause) -> Job:
    """One who is there whenever somebody works looks at it, in a minute."""
    step, own = job.step(cause.of), job.trades[job.hand_over_trade]
    there = replace(freed(job, own), name=f"{step.trade} at once", place=job.trades[step.trade].place)
    job = replace(job, trades={**job.trades, there.name: there})
    kept = tuple(booking for booking in job.bookings if booking.step != step.id)
    return with_steps(job, step.id, lambda one: replace(one, trade=there.name, minutes=1)).with_bookings(kept)


def _delivery(job: Job, cause: Cause) -> Job:
    return replace(job, orders=tuple(order for order in job.orders if order.name != cause.of))


def _service(job: Job, cause: Cause) -> Job:
    services = {name: longest for name, longest in job.house.services.items() if name != cause.of}
    return replace(job, house=replace(job.house, services=services))


def _one_day(job: Job, cause: Cause) -> Job:
    return replace(job, house=replace(job.house, lived_in=False))


def _noise(job: Job, cause: Cause) -> Job:
    return replace(job, house=replace(job.house, noise=None))


def _access(job: Job, cause: Cause) -> Job:
    return replace(job, house=replace(job.house, access=None))


def _lift(job: Job, cause: Cause) -> Job:
    return replace(job, house=replace(job.house, lift=None))


def _toilet(job: Job, cause: Cause) -> Job:
    left = tuple(absence for absence in job.house.absences if absence.off != cause.of)
    return replace(job, house=replace(job.house, absences=left))


def _look_in(job: Job, cause: Cause) -> Job:
    return with_steps(job, cause.of, lambda step: replace(step, look_in=None))


def _fumes(job: Job, cause: Cause) -> Job:
    return with_steps(job, cause.of, lambda step: replace(step, fumes=None))


def _fumes_at_night(job: Job, cause: Cause) -> Job:
    return replace(job, house=replace(job.house, fumes_gone=()))


def _decision(job: Job, cause: Cause) -> Job:
    """What is decided at once; orders that hang on it take as long as they take."""
    return replace(job, decisions=tuple(one for one in job.decisions if one.name != cause.of))


REMOVALS: dict[CauseKind, Removal] = {
    "wait": _wait,
    "within": _within,
    "closing": _closing,
    "air": _air,
    "my order": _my_order,
    "room": _room,
    "person": _person,
    "hands": _hands,
    "travel": _travel,
    "elsewhere": _elsewhere,
    "days": _days,
    "notice": _notice,
    "cushion": _cushion,
    "shortest visit": _shortest_visit,
    "booking": _booking,
    "inspection": _inspection,
    "delivery": _delivery,
    "service": _service,
    "one day": _one_day,
    "noise": _noise,
    "access": _access,
    "lift": _lift,
    "toilet": _toilet,
    "look in": _look_in,
    "fumes": _fumes,
    "fumes at night": _fumes_at_night,
    "decision": _decision,
}
"""What taking each kind of cause away does to a job."""
