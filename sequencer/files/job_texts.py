"""The texts of a job file that stand for more than a number: areas, parts, bookings, days that count from the start."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sequencer.files.clock import parse_hour
from sequencer.files.days import day_words, parse_day, parse_days, parse_weekdays
from sequencer.files.fields import gathered, one_of, parse_named, place_of, table_of, text_of, texts_of
from sequencer.files.quantities import parse_area, parse_duration, parse_length
from sequencer.files.refs import Ref, parse_ref
from sequencer.files.tree import Rows, Table, Text, cut
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.goal import PREFERENCES
from sequencer.terms.place import Place
from sequencer.terms.recipe import Named
from sequencer.terms.words import SURFACES

HORIZON = timedelta(weeks=40)
"""Calendars end so long after the start."""

_ASK_BY = re.compile(r"(?P<hour>.+?)\s+(?P<day>the same day|the day before|(?P<count>[0-9]{1,2}) working days? before)")
_SIZE = re.compile(r"(?P<length>.+?)\s+by\s+(?P<width>.+?)\s*,\s*(?P<height>.+?)\s+high")
_BOOKED = re.compile(
    r"(?P<trade>[^,]+),\s*(?P<day>.+?)\s+(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m),\s*(?P<step>.+)",
    re.IGNORECASE,
)

Days = tuple[date, date]


@dataclass(frozen=True)
class AskBy:
    """The last moment to ask for somebody: hour of the day [min], so many working days before."""

    hour: int
    days_before: int


@dataclass(frozen=True)
class Size:
    """Of a room [m]."""

    length: float
    width: float
    height: float


@dataclass(frozen=True)
class Part:
    """A part of a room's surfaces, with its area [m2] if one is given."""

    name: str
    area: float | None
    place: Place


@dataclass(frozen=True)
class Booked:
    """A firm visit as written. `hour`: minutes after midnight."""

    trade: Text
    day: date
    hour: int
    step: Text
    place: Place


def parse_zone(text: str) -> ZoneInfo:
    try:
        return ZoneInfo(str(text))
    except (KeyError, OSError, ValueError):
        from zoneinfo import available_timezones

        raise Wrong(text, f'no time zone is called "{text}"', _near_zone(text, available_timezones())) from None


def _near_zone(text: str, known: set[str]) -> str:
    advice = nearest(text, sorted(known))
    return advice if advice.startswith('write "') else "write one like America/Halifax or Europe/London"


def day_of(node: Any, context: dict[str, Any]) -> date:
    start = context["start"]
    text = text_of(node)
    return parse_day(text, start) if start is not None else date.min


def ordered_of(node: Any, context: dict[str, Any]) -> date:
    start = context["start"]
    text = text_of(node)
    return parse_day(text, start, nearest_year=True) if start is not None else date.min


def spans_of(node: Any, context: dict[str, Any]) -> tuple[Days, ...]:
    start = context["start"]
    texts = texts_of(node)
    return tuple(gathered(lambda text: parse_days(text, start), texts)) if start is not None else ()


def weekdays_of(node: Any, context: dict[str, Any]) -> frozenset[int]:
    return frozenset().union(*gathered(parse_weekdays, texts_of(node)))


def parse_ask_by(text: str) -> AskBy:
    found = _ASK_BY.fullmatch(text)
    if found is None:
        write = "write 15:00 the day before, 07:00 the same day, or 12:00 2 working days before"
        raise Wrong(text, f'"{text}" is no last moment to ask', write)
    hour = parse_hour(cut(text, 0, found.end("hour")))
    before = int(found["count"]) if found["count"] else int(found["day"] == "the day before")
    return AskBy(hour, before)


def parse_outage(text: str) -> int:
    found = re.fullmatch(r"(.+?)\s+at a time", text)
    if found is None:
        raise Wrong(text, f'"{text}" does not say how long at a time', "write 2 h at a time")
    return parse_duration(cut(text, 0, found.end(1)))


def parse_size(text: str) -> Size:
    found = _SIZE.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no size of a room', "write 2.4 m by 2.1 m, 2.4 m high")
    sides = [parse_length(cut(text, found.start(side), found.end(side))) for side in ("length", "width", "height")]
    if min(sides) <= 0:
        raise Wrong(text, "the room has a side without length", "write 2.4 m by 2.1 m, 2.4 m high")
    return Size(*sides)


def areas_of(node: Any, context: dict[str, Any]) -> dict[str, float]:
    table = table_of(node)

    def one(key: Text) -> tuple[str, float]:
        return str(one_of(SURFACES, "surface")(key)), parse_area(text_of(table[key]))

    return dict(gathered(one, table.texts()))


def parts_of(node: Any, context: dict[str, Any]) -> tuple[Part, ...]:
    if isinstance(node, Table):
        areas = node
        return tuple(gathered(lambda key: _part(key, parse_area(text_of(areas[key]))), node.texts()))
    return tuple(gathered(lambda text: _part(text, None), texts_of(node)))


def _part(name: str, area: float | None) -> Part:
    assert isinstance(name, Text)
    if "/" in name or "," in name:
        raise Wrong(name, f'"{name}" cannot name a part', "use letters, digits, spaces, hyphens")
    return Part(str(name), area, name.place)


def parse_preference(text: str) -> Named:
    """What decides among plans that hand over in the same half-day."""
    return Named(one_of(PREFERENCES, "preference")(text), place_of(text))


def must_haves_of(node: Any, context: dict[str, Any]) -> dict[Ref, tuple[Named, ...]]:
    """What has to be on site before something begins: `strip-out: [wall tile, vanity]`."""
    table = table_of(node)
    return {parse_ref(key): tuple(map(parse_named, texts_of(table[key]))) for key in table.texts()}


def booked_of(node: Any, context: dict[str, Any]) -> tuple[Booked, ...]:
    each = node if isinstance(node, Rows) else [node]
    return tuple(gathered(lambda one: _booking(text_of(one), context["start"]), each))


def _booking(text: str, start: date | None) -> Booked:
    found = _BOOKED.fullmatch(text)
    if found is None:
        write = "write plumber, Tue 10 March 08:00, bathroom rough-plumbing"
        raise Wrong(text, f'"{text}" is no booking', write)
    assert isinstance(text, Text)
    trade, day, hour, step = (text.cut(found.start(part), found.end(part)) for part in ("trade", "day", "hour", "step"))
    return Booked(trade, _booked_day(day, start) if start else date.min, parse_hour(hour), step, text.place)


def _booked_day(text: Text, start: date) -> date:
    """The day of a firm visit, none before the job starts; without a year the next such day, if calendars reach it."""
    near = parse_day(text, start, nearest_year=True)
    if near >= start:
        return near
    try:
        day = parse_day(text, start)
    except Wrong:
        day = None
    if day is None or not start <= day < start + HORIZON:
        what = f"{day_words(near)} lies before the job starts ({day_words(start)})"
        raise Wrong(text, what, "book a later day, or let the job start sooner")
    return day
