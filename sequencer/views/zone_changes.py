"""When a zone's clocks change, found from the zone data alone, and whether the changes follow a yearly rule."""

from __future__ import annotations

import calendar
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

YEARS_AHEAD = 9
"""A rule is believed if it holds this long: the months' fifth Sundays fall differently within these years."""

FIRST_YEAR = 1970
"""Rules are told from the first year they hold, not before this: a reader may ask what the zone was long ago."""


@dataclass(frozen=True)
class Change:
    """A change of the clocks. `local`: the moment as the old offset shows it."""

    local: datetime
    before: timedelta
    after: timedelta
    name: str


@dataclass(frozen=True)
class Observance:
    """Changes of one kind: the first of them and, if they follow a rule, that rule's month and weekday ("2SU")."""

    first: Change
    month: int | None = None
    weekday: str | None = None


def observances(zone: ZoneInfo, first: datetime, last: datetime) -> list[Observance]:
    """What a calendar needs to know of a zone for times from `first` to `last` (aware): rules, or else each change."""
    start, year = datetime(first.year - 1, 1, 1, tzinfo=UTC), first.year + YEARS_AHEAD
    known = list(changes(zone, datetime(FIRST_YEAR, 1, 1, tzinfo=UTC), datetime(year + 1, 1, 1, tzinfo=UTC)))
    kinds = dict.fromkeys((one.before, one.after) for one in known if _utc(one) >= start)
    runs = [_ruled([one for one in known if (one.before, one.after) == kind], year) for kind in kinds]
    since = max((run[0].local.year if run else year for run in runs), default=year)
    found = [_rule([one for one in run if one.local.year >= since]) for run in runs]
    if not found or since > start.year:
        end = datetime(last.year + 1, 1, 1, tzinfo=UTC)
        found = [Observance(change) for change in known if start <= _utc(change) < end]
        if not found or _utc(found[0].first) > first:
            found.append(Observance(_always(zone, start)))
    return sorted(found, key=lambda one: one.first.local)


def changes(zone: ZoneInfo, start: datetime, end: datetime) -> Iterator[Change]:
    """Every change of the zone's offset between two aware moments, exact to the second."""
    step = timedelta(days=1)
    while start < end:
        if start.astimezone(zone).utcoffset() != (start + step).astimezone(zone).utcoffset():
            yield _exact(zone, start, start + step)
        start += step


def _exact(zone: ZoneInfo, low: datetime, high: datetime) -> Change:
    before = _offset(zone, low)
    while high - low > timedelta(seconds=1):
        middle = low + (high - low) / 2
        low, high = (middle, high) if _offset(zone, middle) == before else (low, middle)
    onset = high.replace(microsecond=0)
    local = (onset + before).replace(tzinfo=None)
    return Change(local, before, _offset(zone, onset), onset.astimezone(zone).tzname() or "")


def _always(zone: ZoneInfo, moment: datetime) -> Change:
    """The offset in force before any change looked at, as if from the start of the calendar."""
    offset = _offset(zone, moment)
    return Change(datetime(1970, 1, 1), offset, offset, moment.astimezone(zone).tzname() or "")


def _offset(zone: ZoneInfo, moment: datetime) -> timedelta:
    return moment.astimezone(zone).utcoffset() or timedelta()


def _utc(change: Change) -> datetime:
    return (change.local - change.before).replace(tzinfo=UTC)


def _ruled(same: list[Change], end: int) -> list[Change]:
    """The last of these changes, one a year to year `end`, that follow one rule of month, weekday and hour."""
    held: list[Change] = []
    for change in reversed(same):
        fits = not held or _moment(change) == _moment(held[0])
        if change.local.year != end - len(held) or not fits or _number([change, *held]) is None:
            break
        held = [change, *held]
    return held


def _rule(held: list[Change]) -> Observance:
    """The rule that some changes follow."""
    first = held[0].local
    weekday = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")[first.weekday()]
    return Observance(held[0], first.month, f"{_number(held)}{weekday}")


def _moment(change: Change) -> tuple[int, int, time]:
    return change.local.month, change.local.weekday(), change.local.time()


def _number(held: list[Change]) -> int | None:
    """Which weekday of its month all of them are: -1 the last, 1 the first; None if they differ."""
    days = [change.local for change in held]
    if all(day.day + 7 > calendar.monthrange(day.year, day.month)[1] for day in days):
        return -1
    numbers = {(day.day - 1) // 7 + 1 for day in days}
    return numbers.pop() if len(numbers) == 1 else None
