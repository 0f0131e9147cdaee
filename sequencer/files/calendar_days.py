"""Days of a place: its zone, its holidays and closed days, and moments of the day as UTC minutes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sequencer.terms.minute import DAY, Minute, Span, minute_of, utc

ONE = timedelta(days=1)


@dataclass(frozen=True, eq=False)
class Calendar:
    """A place's days. `holidays` and `closed`: days nobody works, with their name; `closed` binds everybody."""

    zone: ZoneInfo
    holidays: dict[date, str] = field(default_factory=dict)
    closed: dict[date, str] = field(default_factory=dict)
    _midnights: dict[date, Minute] = field(default_factory=dict)

    def midnight(self, day: date) -> Minute:
        """The first minute of a day."""
        if day not in self._midnights:
            self._midnights[day] = minute_of(datetime.combine(day, time.min, self.zone))
        return self._midnights[day]

    def day(self, moment: Minute) -> date:
        """The day of a moment."""
        return utc(moment).astimezone(self.zone).date()

    def minute(self, day: date, after_midnight: int) -> Minute:
        """The moment the clock on the wall shows a time of day [min, 0..1440]; of two such moments the first."""
        midnight, next_midnight = self.midnight(day), self.midnight(day + ONE)
        if next_midnight - midnight == DAY or after_midnight == 0:
            return midnight + after_midnight
        if after_midnight == DAY:
            return next_midnight
        return minute_of(datetime.combine(day, time(after_midnight // 60, after_midnight % 60), self.zone))

    def is_working(self, day: date) -> bool:
        """True for a weekday that is no holiday and not closed."""
        return day.weekday() < 5 and day not in self.holidays and day not in self.closed

    def working_after(self, day: date, count: int) -> date:
        """The `count`-th working day after a day (the day itself if 0)."""
        return self._walk(day, count, ONE)

    def working_before(self, day: date, count: int) -> date:
        """The `count`-th working day before a day (the day itself if 0)."""
        return self._walk(day, count, -ONE)

    def _walk(self, day: date, count: int, step: timedelta) -> date:
        while count:
            day += step
            count -= self.is_working(day)
        return day

    def span(self, day: date) -> Span:
        """A day from midnight to midnight."""
        return self.midnight(day), self.midnight(day + ONE)


def days_between(first: date, out: date) -> Iterator[date]:
    """Every day from `first` to the one before `out`."""
    for number in range((out - first).days):
        yield first + timedelta(days=number)
