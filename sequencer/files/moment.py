"""A moment and an air as one says them on a command line."""

from __future__ import annotations

import re
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from sequencer.files.air_lines import laid_out
from sequencer.files.air_said import AirLine, AirWords
from sequencer.files.air_text import parse_air
from sequencer.files.calendar_days import Calendar
from sequencer.files.clock import parse_hour
from sequencer.files.days import day_from
from sequencer.files.wrong import Wrong
from sequencer.terms.air import AirSaid
from sequencer.terms.minute import Minute
from sequencer.terms.place import Place

_MOMENT = re.compile(
    r"(?:(?P<day>.*\S)\s+)?(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m)", re.IGNORECASE
)
NO_PLACE = Calendar(ZoneInfo("UTC"))
"""A clock on a wall nobody has named the place of: it never changes."""
AROUND = timedelta(days=800)


def parse_moment(text: str, today: date, calendar: Calendar = NO_PLACE) -> Minute:
    """`Tue 16:30`, `2 March 16:30`, `16:30`: the first such moment from `today` on by a clock. Raises Wrong."""
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no moment', "write Tue 16:30, or 2 March 16:30")
    return calendar.minute(day_from(found["day"] or "", today), parse_hour(found["hour"]))


def air_said(text: str, around: date, calendar: Calendar = NO_PLACE) -> AirSaid:
    """A line of air as it holds around a day, by the same clock. Raises Wrong."""
    line = AirLine(None, parse_air(text), Place("--air"))
    return AirSaid(laid_out(AirWords((line,)), calendar, around, around + AROUND))
