"""Hours of the day."""

from __future__ import annotations

import re

from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong

_HOUR = re.compile(r"(?P<hour>[0-9]{1,2})(?::(?P<minute>[0-9]{2}))?\s*(?P<half>am|pm)?", re.IGNORECASE)
_HOURS = re.compile(r"(?P<first>[^-–]+?)\s*[-–]\s*(?P<last>[^-–]+)")


def parse_hour(text: str) -> int:
    """An hour of the day [min after midnight, 0..1440]: `08:00`, `8 am`, `3:30 pm`, `24:00`."""
    found = _HOUR.fullmatch(text)
    if found is None or (found["minute"] is None and found["half"] is None):
        raise Wrong(text, f'"{text}" is no hour' if text else "an hour is missing here", "write 08:00 or 8 am")
    hour, minute = int(found["hour"]), int(found["minute"] or 0)
    if found["half"]:
        fits = 1 <= hour <= 12
        hour = hour % 12 + (12 if found["half"].lower() == "pm" else 0)
    else:
        fits = hour < 24 or (hour == 24 and minute == 0)
    if not fits or minute > 59:
        raise Wrong(text, f'"{text}" is no hour of the day', "write 08:00 or 8 am")
    return hour * 60 + minute


def parse_hours(text: str, over_midnight: bool = False) -> tuple[int, int]:
    """Hours of the day [min after midnight]: `08:00-16:00`. The end comes later, unless they may run over midnight."""
    found = _HOURS.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no span of hours', "write 08:00-16:00")
    first = parse_hour(cut(text, found.start("first"), found.end("first")))
    last = parse_hour(cut(text, found.start("last"), found.end("last")))
    if last == first or (last < first and not over_midnight):
        what = "the hours end before they begin" if last < first else "the hours are empty"
        raise Wrong(text, what, "write 08:00-16:00")
    return first, last
