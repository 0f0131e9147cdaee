"""A room's air laid out in UTC: every line from its day to the next, every day with its hours."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sequencer.files.air_said import AirLine, AirWords
from sequencer.files.air_text import AirPart
from sequencer.files.calendar_days import Calendar, days_between
from sequencer.terms.air import AirStatement
from sequencer.terms.minute import DAY, Minute

BEFORE = timedelta(days=14)
"""What is said of the first day also stands this long before it, for limits that look back."""
BEYOND = timedelta(days=100)
"""The last line stands this long past the calendars, for layers that still dry when the last step is done."""


def laid_out(words: AirWords, calendar: Calendar, start: date, horizon: date) -> tuple[AirStatement, ...]:
    """The lines that begin with a day as statements; later ones win. A line of the start day or earlier also stands
    before it. A line holds until the next; what only heats or dries ends no other line but of its kind."""
    statements: list[AirStatement] = []
    dated = [line for line in words.lines if line.after is None]
    for at, line in enumerate(dated):
        first = line.day if line.day is not None and line.day > start else start - BEFORE
        ends = (later.day for later in dated[at + 1 :] if line.text.overlay or not later.text.overlay)
        out = next((day for day in ends if day is not None), horizon + BEYOND)
        if first < out:
            statements.extend(_line(line, calendar, first, out))
    return tuple(statements)


def throughout(line: AirLine, calendar: Calendar, start: date, horizon: date) -> tuple[AirStatement, ...]:
    """A line as statements, as if it held from before the start to past the calendars."""
    return tuple(_line(line, calendar, start - BEFORE, horizon + BEYOND))


def _line(line: AirLine, calendar: Calendar, first: date, out: date) -> Iterator[AirStatement]:
    since = calendar.midnight(first)
    for part in line.text.parts:
        if not isinstance(part.when, tuple):
            yield _statement(line, part, since, calendar.midnight(out), since)
    for part in line.text.parts:
        if not isinstance(part.when, tuple):
            continue
        begin, end = part.when
        for day in days_between(first, out):
            spans = [(begin, end)] if begin < end else [(0, end), (begin, DAY)]
            for one, other in spans:
                span = calendar.minute(day, one), calendar.minute(day, other)
                if span[0] < span[1]:
                    yield _statement(line, part, *span, since)


def _statement(line: AirLine, part: AirPart, start: Minute, end: Minute, since: Minute) -> AirStatement:
    return AirStatement(start, end, part.temperature, part.humidity, part.how, line.place, part.floor, since)
