"""A line of the site book: its number, when it happened, when it was written, and its words.

    12. Tue 17 March 2026 16:30, written Tue 17 March 2026 16:41: done bathroom/grout/walls
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from sequencer.files.calendar_days import Calendar
from sequencer.files.clock import parse_hour
from sequencer.files.days import day_words, parse_day
from sequencer.files.tree import Text
from sequencer.files.wrong import Wrong
from sequencer.terms.minute import Minute, utc
from sequencer.terms.place import Place

BOOK_FILE = "site-book.txt"
HEAD = "format: 1"
SET_ASIDE = " [set aside]"
"""Stands at the end of a line that was cut short while it was written: it is kept, and says nothing."""

_LINE = re.compile(r"(?P<number>[0-9]{1,9})\. (?P<happened>[^:]+:[^,]+), written (?P<written>[^:]+:.+?): (?P<words>.+)")
_MOMENT = re.compile(r"(?P<day>.+?) (?P<hour>[0-9]{1,2}:[0-9]{2})(?: (?P<offset>[+-][0-9]{2}:[0-9]{2}))?")
_WRITE = "write 12. Tue 17 March 2026 16:30, written Tue 17 March 2026 16:41: done bathroom/grout/walls"


@dataclass(frozen=True)
class Line:
    """A line of the book as written."""

    number: int
    happened: Minute
    written: Minute
    words: Text
    place: Place


def parse_line(text: Text, calendar: Calendar) -> Line:
    """A line that was written to its end. Raises Wrong."""
    found = _LINE.fullmatch(text)
    if found is None:
        raise Wrong(text, "this is no line of a site book", _WRITE)
    happened, written = (_moment(text.cut(*found.span(part)), calendar) for part in ("happened", "written"))
    return Line(int(found["number"]), happened, written, text.cut(*found.span("words")), text.place)


def line_text(number: int, happened: Minute, written: Minute, words: str, zone: ZoneInfo) -> str:
    """The line as it stands in the book, without its end."""
    return f"{number}. {moment_text(happened, zone)}, written {moment_text(written, zone)}: {words}"


def moment_text(minute: Minute, zone: ZoneInfo) -> str:
    """A moment as the book writes it; where the clock on the wall shows an hour twice, with its distance from UTC."""
    local = utc(minute).astimezone(zone)
    twice = local.replace(fold=0).utcoffset() != local.replace(fold=1).utcoffset()
    return f"{day_words(local.date())} {local:%H:%M}" + (f" {_offset(local)}" if twice else "")


def _offset(local: datetime) -> str:
    return local.isoformat()[-6:]


def _moment(text: Text, calendar: Calendar) -> Minute:
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no moment', "write Tue 17 March 2026 16:30")
    day = parse_day(text.cut(*found.span("day")))
    hour = parse_hour(text.cut(*found.span("hour")))
    if found["offset"] is None:
        return calendar.minute(day, hour)
    sign, hours, minutes = found["offset"][0], int(found["offset"][1:3]), int(found["offset"][4:])
    east = timedelta(hours=hours, minutes=minutes) // timedelta(minutes=1)
    return Calendar(ZoneInfo("UTC")).midnight(day) + hour - (east if sign == "+" else -east)
