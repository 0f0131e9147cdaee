"""A room's air laid out in UTC: every line from its day to the next, every day with its hours."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from sequencer.files.air_text import AirText, parse_air
from sequencer.files.calendar_days import Calendar, days_between
from sequencer.files.days import parse_day
from sequencer.files.fields import text_of
from sequencer.files.tree import Table, Text
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.air import AirStatement
from sequencer.terms.minute import DAY
from sequencer.terms.place import Place

BEFORE = timedelta(days=14)
"""What is said of the first day also stands this long before it, for limits that look back."""
BEYOND = timedelta(days=100)
"""The last line stands this long past the calendars, for layers that still dry when the last step is done."""


@dataclass(frozen=True)
class AirLine:
    """One line of air: from its day on (None: always)."""

    day: date | None
    text: AirText
    place: Place


@dataclass(frozen=True)
class AirWords:
    """All a file says of a room's air. `readings`: the name of a logger's file."""

    lines: tuple[AirLine, ...] = ()
    readings: Text | None = None


def parse_air_words(node: Any, context: dict[str, Any]) -> AirWords:
    """The key `air`: one text, texts by day, or a logger's file with such texts under `said`. Raises Wrong."""
    if not isinstance(node, Table):
        text = text_of(node)
        assert isinstance(text, Text)
        return AirWords((AirLine(None, parse_air(text), text.place),))
    if not node.keys() & {"readings", "said"}:
        return AirWords(_by_day(node, context["start"]))
    for key in node.texts():
        if key not in ("readings", "said"):
            raise Wrong(key, f'"{key}" is not known beside readings', nearest(key, ("readings", "said")))
    lines = parse_air_words(node["said"], context).lines if "said" in node else ()
    readings = text_of(node["readings"]) if "readings" in node else None
    assert readings is None or isinstance(readings, Text)
    return AirWords(lines, readings)


def _by_day(table: Table, start: date | None) -> tuple[AirLine, ...]:
    lines: dict[date, AirLine] = {}
    wrongs: list[Wrong] = []
    for key in table.texts():
        try:
            day = parse_day(key, start) if start is not None else date.min
            text = text_of(table[key])
            assert isinstance(text, Text)
            if day in lines and start is not None:
                raise Wrong(key, f'the air from "{key}" on is said a second time', "keep one of the two")
            lines[day] = AirLine(day, parse_air(text), text.place)
        except Wrong as wrong:
            wrongs.append(wrong)
    if wrongs:
        raise Wrong.of(wrongs)
    return tuple(lines[day] for day in sorted(lines))


def laid_out(words: AirWords, calendar: Calendar, start: date, horizon: date) -> tuple[AirStatement, ...]:
    """The lines as statements; later ones win. A line of the start day or earlier also stands before it."""
    statements: list[AirStatement] = []
    for at, line in enumerate(words.lines):
        first = line.day if line.day is not None and line.day > start else start - BEFORE
        out = next((later.day for later in words.lines[at + 1 :] if later.day is not None), horizon + BEYOND)
        if first < out:
            statements.extend(_line(line, calendar, first, out))
    return tuple(statements)


def _line(line: AirLine, calendar: Calendar, first: date, out: date) -> Iterator[AirStatement]:
    base = [part for part in line.text.parts if not isinstance(part.when, tuple)]
    for part in base:
        span = calendar.midnight(first), calendar.midnight(out)
        yield AirStatement(*span, part.temperature, part.humidity, line.text.how, line.place)
    for part in line.text.parts:
        if not isinstance(part.when, tuple):
            continue
        begin, end = part.when
        for day in days_between(first, out):
            spans = [(begin, end)] if begin < end else [(0, end), (begin, DAY)]
            for one, other in spans:
                span = calendar.minute(day, one), calendar.minute(day, other)
                if span[0] < span[1]:
                    yield AirStatement(*span, part.temperature, part.humidity, line.text.how, line.place)
