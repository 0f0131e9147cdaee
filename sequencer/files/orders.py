"""Orders and bookings, met with the steps they are for."""

from __future__ import annotations

from datetime import date

from sequencer.files.calendar_days import ONE, Calendar
from sequencer.files.days import day_words
from sequencer.files.job_model import OrderModel
from sequencer.files.job_texts import Booked
from sequencer.files.uses import Target, Use, find
from sequencer.files.wrong import listed, nearest
from sequencer.terms.arranged import Booking, Order
from sequencer.terms.job import Step, Trade
from sequencer.terms.place import Fault, Place


def order_of(
    name: str,
    model: OrderModel,
    place: Place,
    uses: list[Use],
    calendar: Calendar,
    today: date,
    faults: list[Fault],
) -> Order | None:
    """An order; it is on site when the last day of its lead is over, counted from the day it was (or today could be)
    ordered. None after adding to `faults` what does not meet."""
    targets = [target for ref in model.for_ for target in find(ref.who, ref.place, uses, None, faults)]
    ids = tuple(dict.fromkeys(id for target in targets for id in target.ids))
    measured = _measured(model, uses, faults)
    faults.extend(_order_faults(name, model, place, ids, measured))
    if not ids or (model.made_after is not None and measured is None):
        return None
    arrives = None
    if measured is None:
        last = calendar.working_after(model.ordered or today, model.lead)
        arrives = calendar.midnight(last + ONE)
    ordered = calendar.midnight(model.ordered) if model.ordered is not None else None
    return Order(name, name, ids, place, model.lead, ordered, arrives, measured, check=model.check or 0)


def _measured(model: OrderModel, uses: list[Use], faults: list[Fault]) -> str | None:
    if model.made_after is None:
        return None
    ref = model.made_after
    targets = find(ref.who, ref.place, uses, None, faults)
    if len(targets) > 1:
        rooms = listed((target.use.room for target in targets), "or")
        faults.append(Fault(ref.place, f'"{ref.who}" stands in several rooms', f"write the room before it: {rooms}"))
    return targets[0].last if len(targets) == 1 else None


def _order_faults(
    name: str, model: OrderModel, place: Place, ids: tuple[str, ...], measured: str | None
) -> list[Fault]:
    faults = []
    for ref in (*model.for_, *([model.made_after] if model.made_after else [])):
        if ref.purpose is not None:
            faults.append(Fault(ref.place, "an order waits for no layer", f'write "{ref.who}"'))
    if model.lead < 1:
        faults.append(Fault(place, f'"{name}" arrives on the day it is ordered', "write lead: 1 working day or more"))
    if model.ordered is not None and model.made_after is not None:
        faults.append(Fault(place, f'"{name}" is ordered before it can be measured', "keep ordered or made after"))
    if measured is not None and measured in ids:
        what = f'"{name}" is made after a step it is needed for'
        faults.append(Fault(place, what, "name under for: the step that sets it in place"))
    return faults


def booking_of(
    booked: Booked,
    uses: list[Use],
    steps: dict[str, Step],
    trades: dict[str, Trade],
    calendar: Calendar,
    faults: list[Fault],
) -> Booking | None:
    """A firm visit, or None after adding to `faults` why it cannot be."""
    if booked.trade not in trades:
        what = f'nobody under people is called "{booked.trade}"'
        faults.append(Fault(booked.trade.place, what, nearest(booked.trade, trades)))
        return None
    targets = find(booked.step, booked.step.place, uses, None, faults)
    if not targets:
        return None
    if len(targets) > 1:
        rooms = listed((target.use.room for target in targets), "or")
        what = f'"{booked.step}" stands in several rooms'
        faults.append(Fault(booked.step.place, what, f"write the room before it: {rooms}"))
        return None
    step = _their_step(booked, targets[0], steps, faults)
    if step is None:
        return None
    at = calendar.minute(booked.day, booked.hour)
    spans = [span for day in trades[booked.trade].days for span in day.spans]
    if not any(start <= at < end for start, end in spans):
        write = "write an hour inside their days and hours, or change those"
        faults.append(Fault(booked.place, _not_then(booked, trades[booked.trade], calendar), write))
        return None
    return Booking(str(booked.trade), at, step, booked.place)


def _not_then(booked: Booked, trade: Trade, calendar: Calendar) -> str:
    """Why somebody does not work at the hour of a booking."""
    day, midnight = day_words(booked.day), calendar.midnight(booked.day)
    off = calendar.closed.get(booked.day) or calendar.holidays.get(booked.day)
    there = any(midnight <= each.spans[0][0] < calendar.midnight(booked.day + ONE) for each in trade.days)
    if there:
        return f"{trade.name} does not work then"
    return f"{trade.name} does not work on {day}{f', {off}' if off else ''}"


def _their_step(booked: Booked, target: Target, steps: dict[str, Step], faults: list[Fault]) -> str | None:
    theirs = [id for id in target.ids if steps[id].trade == booked.trade]
    if theirs:
        return theirs[0]
    others = listed(dict.fromkeys(steps[id].trade for id in target.ids))
    what = f'"{booked.step}" has no step of the {booked.trade}'
    faults.append(Fault(booked.step.place, what, f"it is done by {others}: name another step"))
    return None


def doubled(bookings: list[Booking]) -> list[Fault]:
    """Steps booked twice."""
    first: dict[str, Booking] = {}
    faults = []
    for booking in bookings:
        if booking.step in first:
            what = f"{booking.step} is booked already (line {first[booking.step].place.line})"
            faults.append(Fault(booking.place, what, "keep one of the two"))
        first.setdefault(booking.step, booking)
    return faults
