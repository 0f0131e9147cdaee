"""The texts of a house: hours of the week, booked spans, nights without a toilet, the hour by which fumes are gone."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from sequencer.files.clock import parse_hour, parse_hours
from sequencer.files.days import parse_day, parse_weekdays
from sequencer.files.fields import gathered, text_of, texts_of
from sequencer.files.quantities import parse_count
from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong
from sequencer.terms.practice import NIGHT

_HOURS = re.compile(r"(?:(?P<days>[^\W\d].*[^\W\d])\s+)?(?P<hours>[0-9].*)")
_BOOKED = re.compile(r"(?P<day>.+)\s+(?P<hours>[0-9:]+\s*(?:[ap]m)?\s*[-–]\s*[0-9:]+\s*(?:[ap]m)?)", re.IGNORECASE)
_TOILET = re.compile(r"back every evening(?:,\s*(?P<nights>[0-9]+)\s+nights?\s+without\s+at\s+most)?")
_GONE = re.compile(r"gone\s+by\s+(?P<hour>.+)")
EVERY_DAY = frozenset(range(7))


@dataclass(frozen=True)
class WeekHours:
    """Hours [min after midnight] on some days of the week, Monday 0. `words`: as written."""

    days: frozenset[int]
    first: int
    last: int
    words: str = ""


@dataclass(frozen=True)
class BookedSpan:
    """Hours [min after midnight] of one day."""

    day: date
    first: int
    last: int


@dataclass(frozen=True)
class Toilet:
    """The only toilet: how many nights it may be away."""

    nights: int


def parse_week_hours(text: str) -> WeekHours:
    """`07:00-18:00`, `Mon to Fri 07:00-18:00`. Raises Wrong."""
    found = _HOURS.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no span of hours', "write 08:00-16:00 or Mon to Fri 08:00-16:00")
    days = parse_weekdays(cut(text, 0, found.end("days"))) if found["days"] else EVERY_DAY
    first, last = parse_hours(cut(text, found.start("hours")))
    return WeekHours(days, first, last, str(text))


def lift_of(node: Any, context: dict[str, Any]) -> tuple[BookedSpan, ...]:
    """`Tue 10 March 08:00-10:00`, or a list of such."""
    start = context["start"]

    def one(text: str) -> BookedSpan:
        found = _BOOKED.fullmatch(text)
        if found is None:
            raise Wrong(text, f'"{text}" is no booked span', "write Tue 10 March 08:00-10:00")
        day = parse_day(cut(text, 0, found.end("day")), start) if start is not None else date.min
        return BookedSpan(day, *parse_hours(cut(text, found.start("hours"))))

    return tuple(gathered(one, texts_of(node)))


def toilet_of(node: Any, context: dict[str, Any]) -> Toilet:
    """`back every evening`, `back every evening, 3 nights without at most`."""
    text = text_of(node)
    found = _TOILET.fullmatch(text)
    if found is None:
        write = 'write "back every evening" or "back every evening, 3 nights without at most"'
        raise Wrong(text, f'"{text}" does not say when the toilet is back', write)
    if found["nights"] is None:
        return Toilet(0)
    return Toilet(parse_count(cut(text, found.start("nights"), found.end("nights"))))


def parse_gone(text: str) -> int:
    """`gone by 22:00` [min after midnight]. Raises Wrong."""
    found = _GONE.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" does not say by when', "write gone by 22:00")
    hour = parse_hour(cut(text, found.start("hour")))
    if hour <= NIGHT[1]:
        raise Wrong(text, "this is no hour of an evening", "write gone by 22:00")
    return hour
