"""When a zone's clocks change, found from the zone data alone, and whether the changes follow a yearly rule."""

from __future__ import annotations

import calendar
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

YEARS_LOOKED_AT = 9
"""A rule is believed if it holds this long: the months' fifth Sundays fall differently within these years."""


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
    start = datetime(first.year - 1, 1, 1, tzinfo=UTC)
    looked_at = list(changes(zone, start, datetime(first.year + YEARS_LOOKED_AT, 1, 1, tzinfo=UTC)))
    kinds = {(change.before, change.after): change for change in reversed(looked_at)}
    ruled = [_rule([one for one in looked_at if (one.before, one.after) == kind]) for kind in kinds]
    found = [one for one in ruled if one is not None]
    if not found or len(found) < len(ruled):
        end = datetime(last.year + 1, 1, 1, tzinfo=UTC)
        found = [Observance(change) for change in changes(zone, start, end)]
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


def _rule(same: list[Change]) -> Observance | None:
    """The yearly rule that all of these changes follow, None if they follow none."""
    days = [change.local for change in same]
    alike = {(day.month, day.weekday(), day.time()) for day in days}
    years = [day.year for day in days]
    if len(alike) > 1 or years != list(range(years[0], years[0] + YEARS_LOOKED_AT + 1)):
        return None
    numbers = {(day.day - 1) // 7 + 1 for day in days}
    last = all(day.day + 7 > calendar.monthrange(day.year, day.month)[1] for day in days)
    if not last and len(numbers) > 1:
        return None
    number = -1 if last else numbers.pop()
    weekday = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")[days[0].weekday()]
    return Observance(same[0], days[0].month, f"{number}{weekday}")
