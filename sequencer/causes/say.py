"""A cause in a sentence, and where the files say it."""

from __future__ import annotations

from sequencer.terms.cause import Cause
from sequencer.terms.hearing import hearings
from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit
from sequencer.terms.words import OWN_TRADE, in_words, say_ready
from sequencer.waits.words import length, limit_words

KEYS = {"toilet": "only toilet", "fumes at night": "fumes"}
"""Keys of a house that are called otherwise than their cause."""


def said(job: Job, cause: Cause) -> str:
    """What a cause asks for."""
    return in_words(_said(job, cause), job.words)


def place_of(job: Job, cause: Cause) -> Place | None:
    """Where a cause is written; None where the files say nothing of it."""
    match cause.kind:
        case "wait" | "within":
            wait = job.step(cause.of).wait_for(cause.what)
            return wait.place if wait else None
        case "closing":
            closing = job.step(cause.of).closing
            return closing.place if closing else None
        case "air":
            return limit_of(job, cause).place
        case "my order":
            return next(link.place for link in job.step(cause.of).links if link.id == cause.what)
        case "inspection":
            return job.step(cause.of).place
        case "booking":
            return next(booking.place for booking in job.bookings if booking.step == cause.of)
        case "delivery":
            return next(order.place for order in job.orders if order.name == cause.of)
        case "room":
            return job.room(cause.of).place
        case "decision":
            return next(one.place for one in job.decisions if one.name == cause.of)
        case "look in" | "fumes":
            step = job.step(cause.of)
            said = step.look_in if cause.kind == "look in" else step.fumes
            return said.place if said else None
        case "noise" | "access" | "lift" | "toilet" | "fumes at night":
            return job.house.place_of(KEYS.get(cause.kind, cause.kind))
        case "service" | "one day":
            return job.house.place
        case _:
            return job.trades[cause.of].place


def _said(job: Job, cause: Cause) -> str:
    match cause.kind:
        case "wait":
            wait = job.step(cause.of).wait_for(cause.what)
            hours = sum(stage.hours for stage in (wait, *wait.then)) if wait else 0.0
            ready = f"{_title(job, cause.of)}: ready {say_ready(cause.what)}"
            return f"{ready} after {length(hours * HOUR)} in the recipe's air"
        case "within":
            wait = job.step(cause.of).wait_for(cause.what)
            of_ready = " of ready" if wait and wait.within_of_ready else ""
            within = length((wait.within_minutes if wait else None) or 0)
            heard = (h for h in hearings(job) if h.giver.id == cause.of and h.wait is wait)
            listeners = ", ".join(dict.fromkeys(hearing.listener.title for hearing in heard))
            return f"{_title(job, cause.of)}: followed within {within}{of_ready} by {listeners}"
        case "closing":
            closing = job.step(cause.of).closing
            return f"{_title(job, cause.of)}: stays closed until {closing.until_done if closing else ''} is done"
        case "air":
            limit = limit_of(job, cause)
            before = f" from {limit.hours_before:g} h before" if limit.kind == "before" else ""
            only = "spoilt unless the air stays" if limit.kind == "spoils" else f"only in air{before} of"
            return f"{_title(job, cause.of)}: {only} {limit_words(limit)}"
        case "my order":
            return f"{_title(job, cause.of)}: after {_title(job, cause.what)}, by your order"
        case "inspection":
            step = job.step(cause.of)
            return f"{step.title}: waits for the {step.trade}"
        case "booking":
            booking = next(booking for booking in job.bookings if booking.step == cause.of)
            return f"{booking.trade} is booked for {_title(job, cause.of)}"
        case "delivery":
            return _delivered(job, cause.of)
        case "room":
            room = job.room(cause.of)
            return f"{room.title}: {room.at_once} step{'s' if room.at_once > 1 else ''} in the room at once"
        case "service":
            return f"{cause.of} is off for {length(job.house.services[cause.of])} at a time at most"
        case "one day":
            return "people live here: what is taken off is_ back the same day"
        case "noise":
            return f"noise only at {job.house.noise_words or 'the hours the house allows'}"
        case "access":
            return f"nobody is in the house but at {job.house.access_words or 'the hours it is open'}"
        case "lift":
            return "the lift is booked for some hours only"
        case "toilet":
            nights = next(absence.nights for absence in job.house.absences if absence.off == cause.of)
            return f"{_title(job, cause.of)}: {_nights(nights)}"
        case "look in":
            every = job.step(cause.of).look_in
            return f"{_title(job, cause.of)}: somebody has to look in every {length(every.minutes if every else 0)}"
        case "fumes":
            stay = job.step(cause.of).fumes
            return f"{_title(job, cause.of)}: fumes for {length(stay.minutes if stay else 0)}"
        case "fumes at night":
            return f"fumes have to be gone by {job.house.fumes_words or 'night'}"
        case "decision":
            decision = next(one for one in job.decisions if one.name == cause.of)
            return f"{decision.name}: {decision.by} has to decide first"
        case _:
            return _of_trade(job.trades[cause.of], cause)


def limit_of(job: Job, cause: Cause) -> Limit:
    """The limit of air a cause names."""
    step = job.step(cause.of)
    limits = (*step.air, *(limit for wait in step.waits for limit in wait.limits))
    return next(limit for limit in limits if str(limit.place) == cause.what)


def _nights(nights: int) -> str:
    return f"{nights} night{'s' * (nights > 1)} at most without a toilet" if nights else "the toilet is back by night"


def _of_trade(trade: Trade, cause: Cause) -> str:
    does, is_, needs = ("do", "are", "need") if trade.name == OWN_TRADE else ("does", "is", "needs")
    words = {
        "hands": f"{trade.name}: {trade.hands} at once",
        "travel": f"{trade.name} {needs} {length(trade.travel)} from place to place",
        "elsewhere": f"{trade.name} {needs} to be at another job too",
        "days": f"{trade.name} {does} not come on every working day",
        "notice": f"{trade.name} {needs} to be asked first: {trade.notice_words or 'notice'}",
        "cushion": f"{trade.name} {is_} kept {length(trade.cushion)} behind the work in front",
        "shortest visit": f"{trade.name} {does} not come for less than {length(trade.shortest_visit)}",
    }
    return words.get(cause.kind, f"{trade.name} {is_} not always free")


def _delivered(job: Job, name: str) -> str:
    order = next(order for order in job.orders if order.name == name)
    days = "1 working day" if order.lead_days == 1 else f"{order.lead_days} working days"
    if order.made_after is not None:
        return f"{order.item} is on site {days} after {_title(job, order.made_after)}"
    return f"{order.item} takes {days} to come"


def _title(job: Job, id: str) -> str:
    return job.step(id).title
