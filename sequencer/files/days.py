"""Days, spans of days and days of the week."""

from __future__ import annotations

import re
from datetime import date, timedelta

from sequencer.files.tree import cut, pieces
from sequencer.files.wrong import Wrong, nearest

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
FIRST_YEAR, LAST_YEAR = 2000, 2199
"""Other years are slips of the hand."""
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_LONG_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_DAY = re.compile(
    r"(?:(?P<weekday>[^\W\d_]+),?\s+)?(?P<day>[0-9]{1,2})\s+(?P<month>[^\W\d_]+)(?:\s+(?P<year>[0-9]{4}))?"
)
_ISO = re.compile(r"(?:(?P<weekday>[^\W\d_]+)\s+)?(?P<year>[0-9]{4})-(?P<month>[0-9]{2})-(?P<day>[0-9]{2})")
_WRITE = "write 2 March 2026 or 2026-03-02"


def day_words(day: date) -> str:
    """`Mon 2 March 2026`."""
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]} {day.year}"


def _weekday(text: str) -> int:
    for names in (WEEKDAYS, _LONG_WEEKDAYS):
        if text.capitalize() in names:
            return names.index(text.capitalize())
    raise Wrong(text, f'"{text}" is no day of the week', nearest(text, WEEKDAYS))


def _month(text: str) -> int:
    for number, name in enumerate(MONTHS, 1):
        if text.capitalize() in (name, name[:3]):
            return number
    raise Wrong(text, f'"{text}" is no month', nearest(text, MONTHS))


def _dated(text: str, year: int, month: int, day: int) -> date:
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise Wrong(text, f"the year {year} is out of reach", f"write a year from {FIRST_YEAR} to {LAST_YEAR}")
    try:
        return date(year, month, day)
    except ValueError:
        raise Wrong(text, f'"{text}" is no day of the calendar', _WRITE) from None


def _without_year(text: str, month: int, day: int, start: date | None, nearest_year: bool) -> date:
    if start is None:
        raise Wrong(text, f'"{text}" has no year', _WRITE)
    years = range(start.year - (5 if nearest_year else 0), start.year + 9)
    days = []
    for year in years:
        try:
            days.append(date(year, month, day))
        except ValueError:
            continue
    if not days:
        raise Wrong(text, f'"{text}" is no day of the calendar', _WRITE)
    if nearest_year:
        return min(days, key=lambda each: abs(each - start))
    return min(each for each in days if each >= start)


def parse_day(text: str, start: date | None = None, nearest_year: bool = False) -> date:
    """A day: `2 March 2026`, `Mon 2 March 2026`, `2026-03-02`, or `2 March`: the first such day on or after `start`.

    `nearest_year`: without a year it is the such day nearest to `start`, before or after. Raises Wrong, also if a
    weekday does not fit, or a year is needed and `start` is None.
    """
    found = _ISO.fullmatch(text) or _DAY.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no day' if text else "a day is missing here", _WRITE)
    if found.re is _ISO:
        day = _dated(text, int(found["year"]), int(found["month"]), int(found["day"]))
    else:
        month = _month(cut(text, found.start("month"), found.end("month")))
        if found["year"]:
            day = _dated(text, int(found["year"]), month, int(found["day"]))
        else:
            day = _without_year(text, month, int(found["day"]), start, nearest_year)
    if found["weekday"]:
        weekday = _weekday(cut(text, 0, found.end("weekday")))
        if weekday != day.weekday():
            what = f"{day_words(day)[4:]} is a {WEEKDAYS[day.weekday()]}, not a {WEEKDAYS[weekday]}"
            raise Wrong(text, what, f'write "{day_words(day)}"')
    return day


def parse_days(text: str, start: date | None = None) -> tuple[date, date]:
    """A span of days, first day in and first day out: `24 March to 26 March` (26 March counts), `until 26 March`
    (from `start`; 26 March is out), or one day."""
    if text.startswith("until ") or text == "until":
        out = parse_day(cut(text, 5), start)
        return (start or out), out
    parts = pieces(text, " to ")
    if len(parts) > 2:
        raise Wrong(text, f'"{text}" is no span of days', "write 24 March to 26 March")
    first = parse_day(parts[0], start)
    last = parse_day(parts[-1], first if start is not None else None)
    if last < first:
        raise Wrong(text, "the span ends before it begins", "write the earlier day first")
    return first, last + timedelta(days=1)


def parse_weekdays(text: str) -> frozenset[int]:
    """Days of the week, Monday 0: `Mon to Fri`, `Tue and Thu`, `Mon, Wed, Sat`."""
    chosen: set[int] = set()
    for part in pieces(text):
        for word in pieces(part, " and "):
            ends = [_weekday(end) for end in pieces(word, " to ")]
            if len(ends) > 2:
                raise Wrong(word, f'"{word}" is no span of weekdays', "write Mon to Fri")
            chosen.update((ends[0] + step) % 7 for step in range((ends[-1] - ends[0]) % 7 + 1))
    return frozenset(chosen)


def day_from(text: str, today: date) -> date:
    """`Tue`, `2 March`, a day with its year: the first such day from `today` on; without a text, today."""
    if not text:
        return today
    if re.fullmatch(r"[^\W\d_]+", text):
        wanted = parse_weekdays(text)
        return next(day for ahead in range(7) if (day := today + timedelta(days=ahead)).weekday() in wanted)
    return parse_day(text, today)
