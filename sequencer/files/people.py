"""A person's hours as working days in UTC, over the whole of a job."""

from __future__ import annotations

from datetime import date

from sequencer.files.calendar_days import Calendar, days_between
from sequencer.files.days import WEEKDAYS
from sequencer.files.house_text import EVERY_DAY, WeekHours
from sequencer.files.job_model import PersonModel
from sequencer.terms.job import Trade, Workday
from sequencer.terms.minute import HOUR, Minute, Span
from sequencer.terms.place import Fault, Place

MON_TO_FRI = frozenset(range(5))
EIGHT_TO_FOUR = (8 * HOUR, 16 * HOUR)

AT_HOME = PersonModel.model_construct(hours=(WeekHours(EVERY_DAY, 8 * HOUR, 20 * HOUR),), days=EVERY_DAY, holidays=True)
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


def weekdays_of(person: PersonModel) -> frozenset[int]:
    """The days of the week a person works: those said, else those the hours name, else Monday to Friday."""
    named = frozenset().union(*(each.days for each in person.hours or ()))
    if person.days is not None:
        return person.days & named if named else person.days
    return named if named and named != EVERY_DAY else MON_TO_FRI


def windows_of(person: PersonModel, weekday: int) -> list[Span]:
    """The hours of a day of the week in order [min after midnight], breaks not taken off."""
    if person.hours is None:
        return [EIGHT_TO_FOUR]
    return sorted((each.first, each.last) for each in person.hours if weekday in each.days)


def _pattern(person: PersonModel, weekday: int) -> list[Span]:
    """The open hours of a day of the week [min after midnight]."""
    pattern = windows_of(person, weekday)
    for pause in person.break_ or ():
        pattern = without(pattern, pause)
    return trimmed(pattern, person.set_up or 0, person.clean_up or 0)


def _apart(days: dict[date, Workday], person: PersonModel, calendar: Calendar) -> list[tuple[date, Workday]]:
    """The days of who comes at some hour of a window: each of several windows of a day is a day of its own."""
    found = []
    for day, workday in days.items():
        for first, last in windows_of(person, day.weekday()):
            start, end = calendar.minute(day, first), calendar.minute(day, last)
            spans = tuple(span for span in workday.spans if start <= span[0] and span[1] <= end)
            found += [(day, Workday(spans))] if spans else []
    return found


def workdays(person: PersonModel, calendar: Calendar, start: date, horizon: date) -> dict[date, Workday]:
    """Every day the person works, with its open spans."""
    patterns = {weekday: _pattern(person, weekday) for weekday in weekdays_of(person)}
    away = {day for first, out in person.away or () for day in days_between(max(first, start), min(out, horizon))}
    found: dict[date, Workday] = {}
    for day in days_between(start, horizon):
        off = day in calendar.closed or (day in calendar.holidays and not person.holidays)
        if day.weekday() not in patterns or off or day in away:
            continue
        spans = [(calendar.minute(day, first), calendar.minute(day, last)) for first, last in patterns[day.weekday()]]
        if spans := [(first, last) for first, last in spans if first < last]:
            found[day] = Workday(tuple(spans))
    return found


def trade_of(
    name: str, person: PersonModel, place: Place, calendar: Calendar, today: date, start: date, horizon: date
) -> Trade:
    """The trade a person is, with the earliest visit its notice allows counted from `today`."""
    whole = workdays(person, calendar, start, horizon)
    days = list(whole.items()) if person.hour_known is not False else _apart(whole, person, calendar)
    notice = person.notice or 0
    ask_by: tuple[Minute, ...] = ()
    if person.ask_by is not None:
        ask = person.ask_by
        ask_by = tuple(calendar.minute(calendar.working_before(day, ask.days_before), ask.hour) for day, _ in days)
    return Trade(
        name=name,
        days=tuple(workday for _, workday in days),
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
    """A person who never has an open minute, or has hours that overlap."""
    faults = _overlaps(name, person, trade.place)
    if trade.days:
        return faults
    lost = (person.set_up or 0) + (person.clean_up or 0)
    why = "set up and clean up take the whole day" if lost else "days, hours, break and away leave nothing"
    return [*faults, Fault(trade.place, f'"{name}" never has an open hour: {why}', "give longer hours or more days")]


def _overlaps(name: str, person: PersonModel, place: Place) -> list[Fault]:
    for weekday, word in enumerate(WEEKDAYS):
        windows = windows_of(person, weekday)
        if any(before[1] > after[0] for before, after in zip(windows, windows[1:], strict=False)):
            return [Fault(place, f'hours of "{name}" overlap on a {word}', "make one span of them")]
    return []
