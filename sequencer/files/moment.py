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
from sequencer.files.days import parse_day, parse_weekdays
from sequencer.files.wrong import Wrong
from sequencer.terms.air import AirSaid
from sequencer.terms.minute import Minute
from sequencer.terms.place import Place

_MOMENT = re.compile(
    r"(?:(?P<day>.*\S)\s+)?(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m)", re.IGNORECASE
)
_NO_ZONE = Calendar(ZoneInfo("UTC"))
"""A clock on a wall nobody has named the place of."""
_AROUND = timedelta(days=800)


def parse_moment(text: str, today: date) -> Minute:
    """`Tue 16:30`, `2 March 16:30`, `16:30`: the first such moment from `today` on, by a clock that never changes.

    Raises Wrong.
    """
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no moment', "write Tue 16:30, or 2 March 16:30")
    return _NO_ZONE.minute(day_from(found["day"] or "", today), parse_hour(found["hour"]))


def day_from(text: str, today: date) -> date:
    """`Tue`, `2 March`, a day with its year: the first such day from `today` on; without a text, today."""
    if not text:
        return today
    if re.fullmatch(r"[^\W\d_]+", text):
        wanted = parse_weekdays(text)
        return next(day for ahead in range(7) if (day := today + timedelta(days=ahead)).weekday() in wanted)
    return parse_day(text, today)


def parse_happened(text: str, today: date, calendar: Calendar) -> Minute:
    """`Tue 16:30`, `yesterday 16:30`, `2 March 16:30`, `16:30`: the last such moment up to today, by a place's clock.

    Raises Wrong.
    """
    found = _MOMENT.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no moment', "write Tue 16:30, or 2 March 16:30")
    return calendar.minute(_day_up_to(found["day"] or "today", today), parse_hour(found["hour"]))


def _day_up_to(text: str, today: date) -> date:
    ahead = {"today": 0, "yesterday": 1}
    if text in ahead:
        return today - timedelta(days=ahead[text])
    if re.fullmatch(r"[^\W\d_]+", text):
        wanted = parse_weekdays(text)
        return next(day for back in range(7) if (day := today - timedelta(days=back)).weekday() in wanted)
    return parse_day(text, today, nearest_year=True)


def air_said(text: str, around: date) -> AirSaid:
    """A line of air as it holds around a day, by the same clock. Raises Wrong."""
    line = AirLine(None, parse_air(text), Place("--air"))
    return AirSaid(laid_out(AirWords((line,)), _NO_ZONE, around, around + _AROUND))
