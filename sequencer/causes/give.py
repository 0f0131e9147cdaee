"""How far a cause must give way: each with its ladder of ways to give it, the smallest first."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import ceil

from sequencer.causes.people import missing_days, on_days
from sequencer.causes.say import limit_of
from sequencer.causes.without import with_steps, with_trade, with_wait, without
from sequencer.files.said import said_day
from sequencer.terms.arranged import Order
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Room
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.felt import feels_humidity
from sequencer.waits.wetting import layer_of, wet_room
from sequencer.waits.words import length

HOURS_TRIED, DAYS_TRIED = 24, 30
"""How far a window is made longer: hour by hour at first, then day by day. The grain of an answer, nothing else."""

WARMER = 2.0
"""How much warmer than it needs to be a room is best heated [K]: heaters swing; common practice, no source."""

FLOWS = range(20, 301, 20)
"""Air that a window or fan may bring into a room beside what it has [m3/h]: up to a strong one; common practice, no
source."""

Possible = Callable[[Job], bool]


@dataclass(frozen=True)
class Ladder:
    """Ways to give a cause, rung by rung, the smallest first: the job then, and what is given in words."""

    rungs: Sequence[int]
    change: Callable[[int], Job]
    words: Callable[[int], str]

    def first(self, possible: Possible) -> int | None:
        """The first rung with which a plan is possible; None if there is none."""
        at = bisect_left(self.rungs, True, key=lambda rung: possible(self.change(rung)))
        return self.rungs[at] if at < len(self.rungs) else None


def smallest(job: Job, cause: Cause, possible: Possible) -> str | None:
    """The words of the smallest way to give a cause with which a plan is possible; None if there is none."""
    if not possible(without(job, cause)):
        return None
    for kind in (_drier_room, LADDERS.get(cause.kind, _no_ladder)):
        ladder = kind(job, cause)
        if ladder is not None:
            rung = ladder.first(possible)
            if rung is not None:
                return _alone(job, cause, rung, possible) or ladder.words(rung)
    if cause.kind == "air":
        return _air(limit_of(job, cause))
    return WHOLLY[cause.kind].format(of=cause.of)


def _no_ladder(job: Job, cause: Cause) -> None:
    """What gives way wholly or not at all."""


def _air(limit: Limit) -> str:
    """What to do about the air, as the files say it."""
    ways = []
    if limit.coldest is not None:
        ways.append(f"heat the room (air: heated to {round(limit.coldest + WARMER, 1):g} C)")
    if limit.dampest is not None or limit.above_dew_point is not None:
        ways.append("dry it (air: dried to 50 %)")
    return " or ".join(ways) or WHOLLY["air"]


def _within(job: Job, cause: Cause) -> Ladder:
    wait = job.step(cause.of).wait_for(cause.what)
    now = (wait.within_minutes if wait else None) or 0
    return Ladder(
        [now + HOUR * n for n in range(1, HOURS_TRIED)] + [now + DAY * n for n in range(1, DAYS_TRIED)],
        lambda longer: with_wait(job, cause.of, cause.what, lambda wait: replace(wait, within_minutes=longer)),
        lambda longer: f"within {length(longer)} instead of {length(now)}",
    )


def _wait(job: Job, cause: Cause) -> Ladder:
    """Hour by hour; all its stages are shortened in one measure."""
    wait = job.step(cause.of).wait_for(cause.what)
    whole = sum(stage.hours for stage in (wait, *wait.then)) if wait else 0.0

    def quicker(wait: Wait, hours: int) -> Wait:
        then = tuple(replace(stage, hours=stage.hours * hours / whole) for stage in wait.then)
        floor = None if wait.floor_hours is None else min(wait.floor_hours, hours)
        return replace(wait, hours=wait.hours * hours / whole, floor_hours=floor, then=then)

    return Ladder(
        range(ceil(whole) - 1, 0, -1),
        lambda hours: with_wait(job, cause.of, cause.what, lambda wait: quicker(wait, hours)),
        lambda hours: f"ready after {hours} h instead of {whole:g} h, by a quicker product or warmer air",
    )


def _drier_room(job: Job, cause: Cause) -> Ladder | None:
    """More air through a room that a layer's own water makes damp, while the layer stands."""
    step = job.step(cause.of) if cause.kind == "wait" else None
    wait = step.wait_for(cause.what) if step else None
    room = wet_room(job.room(step.room)) if step else None
    if step is None or wait is None or room is None or layer_of(step) is None or not feels_humidity(wait):
        return None

    def aired(flow: int) -> Job:
        def more(one: Room) -> Room:
            return replace(one, air_changes=one.air_changes + flow / room.volume) if one.name == step.room else one

        return replace(job, rooms=tuple(more(one) for one in job.rooms))

    return Ladder(
        FLOWS,
        aired,
        lambda flow: f"a drier room: a window or fan that brings {flow} m3/h more, or a dehumidifier",
    )


def _delivery(job: Job, cause: Cause) -> Ladder | None:
    order = next(order for order in job.orders if order.name == cause.of)

    def ordered(changed: Order) -> Job:
        return replace(job, orders=tuple(changed if one.name == order.name else one for one in job.orders))

    if order.made_after is not None:
        return Ladder(
            range(order.lead_days - 1, -1, -1),
            lambda days: ordered(replace(order, lead_days=days)),
            lambda days: f"made in {_days(days)} instead of {order.lead_days}",
        )
    starts = [start for start, _ in job.working_days]
    return Ladder(
        starts[: bisect_left(starts, (order.arrives or job.start) - 1)][::-1],
        lambda start: ordered(replace(order, arrives=start)),
        lambda start: f"on site before {said_day(job.zone, start)}",
    )


def _notice(job: Job, cause: Cause) -> Ladder | None:
    trade = job.trades[cause.of]
    if trade.earliest is None or trade.ask_by:
        return None
    starts = [start for start, _ in job.working_days]
    return Ladder(
        starts[: bisect_left(starts, trade.earliest)][::-1],
        lambda start: with_trade(job, trade.name, lambda one: replace(one, earliest=start)),
        lambda start: f"{trade.name} from {said_day(job.zone, start)} on",
    )


def _cushion(job: Job, cause: Cause) -> Ladder:
    cushion = job.trades[cause.of].cushion
    return Ladder(
        range((cushion - 1) // HOUR * HOUR, 0, -HOUR),
        lambda less: with_trade(job, cause.of, lambda one: replace(one, cushion=less)),
        lambda less: f"a cushion of {length(less)} instead of {length(cushion)}",
    )


def _more_days(job: Job, cause: Cause) -> Ladder:
    """All the missing days up to one of them, by its midnight."""
    missing = [day for day in missing_days(job, job.trades[cause.of]) if day > job.now - DAY]
    return Ladder(
        missing,
        lambda last: with_trade(job, cause.of, lambda one: on_days(job, one, [d for d in missing if d <= last])),
        lambda last: f"{cause.of} on every working day until {said_day(job.zone, last)}",
    )


def _alone(job: Job, cause: Cause, rung: int, possible: Possible) -> str | None:
    """Of further days of a trade the last is needed; in words, if it alone will do."""
    if cause.kind != "days" or not possible(with_trade(job, cause.of, lambda one: on_days(job, one, [rung]))):
        return None
    return f"{cause.of} on {said_day(job.zone, rung)} too"


def _service(job: Job, cause: Cause) -> Ladder:
    now, house = job.house.services[cause.of], job.house
    return Ladder(
        range(now + HOUR // 2, DAY + 1, HOUR // 2),
        lambda longer: replace(job, house=replace(house, services={**house.services, cause.of: longer})),
        lambda longer: f"{cause.of} off for {length(longer)} at a time instead of {length(now)}",
    )


def _toilet(job: Job, cause: Cause) -> Ladder:
    house = job.house
    now = next(absence.nights for absence in house.absences if absence.off == cause.of)

    def longer(nights: int) -> Job:
        absences = (replace(one, nights=nights) if one.off == cause.of else one for one in house.absences)
        return replace(job, house=replace(house, absences=tuple(absences)))

    return Ladder(
        range(now + 1, now + DAYS_TRIED),
        longer,
        lambda nights: f"{nights} night{'s' * (nights > 1)} without a toilet instead of {now}",
    )


def _look_in(job: Job, cause: Cause) -> Ladder:
    now = job.step(cause.of).look_in
    assert now is not None

    def less_often(minutes: int) -> Job:
        return with_steps(job, cause.of, lambda step: replace(step, look_in=replace(now, minutes=minutes)))

    return Ladder(
        [now.minutes + HOUR * n for n in range(1, HOURS_TRIED)] + [now.minutes + DAY * n for n in range(1, DAYS_TRIED)],
        less_often,
        lambda minutes: f"left alone for {length(minutes)} instead of {length(now.minutes)}",
    )


def _days(count: int) -> str:
    return "1 working day" if count == 1 else f"{count} working days"


LADDERS: dict[str, Callable[[Job, Cause], Ladder | None]] = {
    "within": _within,
    "wait": _wait,
    "delivery": _delivery,
    "notice": _notice,
    "cushion": _cushion,
    "days": _more_days,
    "service": _service,
    "toilet": _toilet,
    "look in": _look_in,
}
"""Causes that can give way by degrees."""

WHOLLY: dict[str, str] = {
    "within": "that it may be followed at any later time",
    "wait": "a layer that is ready at once",
    "closing": "that it does not stay closed",
    "air": "air that keeps to it: heat or dry the room",
    "my order": "your own order of these two",
    "room": "several steps in the room at once",
    "hands": "a second pair of hands for {of}",
    "travel": "the time on the way",
    "elsewhere": "{of} for this job alone",
    "days": "{of} on every working day",
    "notice": "{of} without notice",
    "cushion": "the cushion",
    "shortest visit": "shorter visits of {of}",
    "booking": "another day for this visit",
    "inspection": "an inspection as soon as it can be looked at",
    "delivery": "on site from the start",
    "service": "{of} off for as long as it takes",
    "one day": "that what is taken off stays off over night",
    "noise": "noise at all working hours",
    "access": "the house open at all working hours",
    "lift": "the lift booked for it",
    "toilet": "more nights without a toilet",
    "look in": "that it may be left alone",
    "fumes": "that people may be in the fumes",
    "fumes at night": "a night away from the fumes",
    "decision": "that it is decided already",
}
"""What is given where a cause gives way wholly."""
