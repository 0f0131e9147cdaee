"""A moment gone by, as one says it on a command line."""

from __future__ import annotations

import re
from datetime import date, timedelta

from sequencer.files.calendar_days import Calendar
from sequencer.files.clock import parse_hour
from sequencer.files.days import parse_day, parse_weekdays
from sequencer.files.wrong import Wrong
from sequencer.terms.minute import Minute

_MOMENT = re.compile(
    r"(?:(?P<day>.*\S)\s+)?(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m)", re.IGNORECASE
)


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
