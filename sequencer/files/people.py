"""A person's hours as working days in UTC, over the whole of a job."""

from __future__ import annotations

from datetime import date

from sequencer.files.calendar_days import Calendar, days_between
from sequencer.files.job_model import PersonModel
from sequencer.terms.job import Trade, Workday
from sequencer.terms.minute import HOUR, Minute, Span
from sequencer.terms.place import Fault, Place

MON_TO_FRI = frozenset(range(5))
EIGHT_TO_FOUR = (8 * HOUR, 16 * HOUR)

AT_HOME = PersonModel.model_construct(days=frozenset(range(7)), hours=(8 * HOUR, 20 * HOUR), holidays=True)
"""When a client can be asked where nothing is said of them; common practice, no source."""


def merged(first: PersonModel | None, then: PersonModel | None) -> PersonModel:
    """What two files say of a person: `then` wins key by key."""
    first, then = first or PersonModel(), then or PersonModel()
    return first.model_copy(update={name: getattr(then, name) for name in then.model_fields_set})


def without(spans: list[Span], hole: Span) -> list[Span]:
    """The spans with a hole cut out of them; what is left of each is not empty."""
    left: list[Span] = []
    for start, end in spans:
        left += [(start, min(end, hole[0])), (max(start, hole[1]), end)]
    return [(start, end) for start, end in left if start < end]


def trimmed(spans: list[Span], at_start: int, at_end: int) -> list[Span]:
    """The spans with so many open minutes taken off their two ends."""
    for take, last in ((at_start, False), (at_end, True)):
        while take and spans:
            start, end = spans.pop(-1 if last else 0)
            cut = min(take, end - start)
            take -= cut
            rest = (start, end - cut) if last else (start + cut, end)
            if rest[0] < rest[1]:
                spans.insert(len(spans) if last else 0, rest)
    return spans


def workdays(person: PersonModel, calendar: Calendar, start: date, horizon: date) -> dict[date, Workday]:
    """Every day the person works, with its open spans."""
    weekdays = person.days if person.days is not None else MON_TO_FRI
    hours = person.hours or EIGHT_TO_FOUR
    away = {day for first, out in person.away or () for day in days_between(max(first, start), min(out, horizon))}
    pattern: list[Span] = [hours]
    for pause in person.break_ or ():
        pattern = without(pattern, pause)
    pattern = trimmed(pattern, person.set_up or 0, person.clean_up or 0)
    found: dict[date, Workday] = {}
    for day in days_between(start, horizon):
        off = day in calendar.closed or (day in calendar.holidays and not person.holidays)
        if day.weekday() not in weekdays or off or day in away:
            continue
        spans = [(calendar.minute(day, first), calendar.minute(day, last)) for first, last in pattern]
        if spans := [(first, last) for first, last in spans if first < last]:
            found[day] = Workday(tuple(spans))
    return found


def trade_of(
    name: str, person: PersonModel, place: Place, calendar: Calendar, today: date, start: date, horizon: date
) -> Trade:
    """The trade a person is, with the earliest visit its notice allows counted from `today`."""
    days = workdays(person, calendar, start, horizon)
    notice = person.notice or 0
    ask_by: tuple[Minute, ...] = ()
    if person.ask_by is not None:
        ask = person.ask_by
        ask_by = tuple(calendar.minute(calendar.working_before(day, ask.days_before), ask.hour) for day in days)
    return Trade(
        name=name,
        days=tuple(days.values()),
        place=place,
        hands=person.hands or 1,
        earliest=calendar.midnight(calendar.working_after(today, notice)) if notice else None,
        notice_days=notice,
        notice_words=f"{notice} working day{'s' * (notice != 1)}" if notice else "",
        cushion=person.cushion or 0,
        shortest_visit=person.shortest_visit or 0,
        travel=person.travel or 0,
        hour_known=person.hour_known is not False,
        ask_by=ask_by,
    )


def hours_faults(name: str, person: PersonModel, trade: Trade) -> list[Fault]:
    """A person who never has an open minute."""
    if trade.days:
        return []
    lost = (person.set_up or 0) + (person.clean_up or 0)
    why = "set up and clean up take the whole day" if lost else "days, hours, break and away leave nothing"
    return [Fault(trade.place, f'"{name}" never has an open hour: {why}', "give longer hours or more days")]
