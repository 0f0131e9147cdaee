"""UTC minutes as the words of a place: local days and hours, spelled the same whatever the machine's language."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from sequencer.terms.minute import DAY, HOUR, Minute, minute_of, utc

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def weekday(day: date) -> str:
    """Thu"""
    return WEEKDAYS[day.weekday()][:3]


def brief(day: date) -> str:
    """Thu 2 Apr"""
    return f"{weekday(day)} {day.day} {MONTHS[day.month - 1][:3]}"


def usual(day: date) -> str:
    """Thu 2 April"""
    return f"{weekday(day)} {day.day} {MONTHS[day.month - 1]}"


def full(day: date) -> str:
    """Thursday 2 April"""
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"


def length(minutes: int) -> str:
    """A stretch of time as 45 min, 4 h, 4 h 45 min, 57 h [min in]."""
    hours, rest = divmod(minutes, HOUR)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{rest} min"] * (rest > 0 or not hours))


def days_between(earlier: date, later: date) -> str:
    """1 day, 12 days"""
    count = (later - earlier).days
    return f"{count} day" if count == 1 else f"{count} days"


class Clock:
    """The clock on the wall of one zone. Days are local dates; the hours of a day need not be 24."""

    def __init__(self, zone: str) -> None:
        """ZoneInfoNotFoundError if the zone has no such name."""
        self.zone = ZoneInfo(zone)

    def local(self, minute: Minute) -> datetime:
        """The local datetime of a minute."""
        return utc(minute).astimezone(self.zone)

    def day(self, minute: Minute) -> date:
        """The local date a minute lies in."""
        return self.local(minute).date()

    def last_day(self, end: Minute) -> date:
        """The local date of the last minute before `end`: a day that ends at midnight is that day."""
        return self.day(end - 1)

    def midnight(self, day: date) -> Minute:
        """The first minute of a local date."""
        return minute_of(datetime(day.year, day.month, day.day, tzinfo=self.zone).astimezone(UTC))

    def noon(self, day: date) -> Minute:
        """Local noon of a date."""
        return minute_of(datetime(day.year, day.month, day.day, 12, tzinfo=self.zone).astimezone(UTC))

    def hour(self, minute: Minute) -> str:
        """15:00"""
        return f"{self.local(minute):%H:%M}"

    def at(self, minute: Minute) -> str:
        """Thu 2 April 15:00"""
        return f"{usual(self.day(minute))} {self.hour(minute)}"

    def by(self, minute: Minute) -> str:
        """A deadline: Thu 2 April 15:00; one at midnight is the day it ends, Thu 2 April."""
        return usual(self.last_day(minute)) if self.hour(minute) == "00:00" else self.at(minute)

    def at_brief(self, minute: Minute) -> str:
        """Thu 2 Apr 15:00"""
        return f"{brief(self.day(minute))} {self.hour(minute)}"

    def days(self, first: Minute, end: Minute) -> list[date]:
        """Every local date that a span touches."""
        start, last = self.day(first), self.last_day(end)
        return [start + timedelta(days=n) for n in range((last - start).days + 1)]

    def span(self, start: Minute, end: Minute) -> str:
        """Thu 2 April 08:00 to 15:00; over days: Thu 2 April 08:00 to Fri 3 April 12:00"""
        last = self.hour(end) if self.last_day(end) == self.day(start) else self.at(end)
        return f"{self.at(start)} to {last}"

    def iso(self, minute: Minute) -> str:
        """ISO 8601 local time with its offset: 2026-04-02T15:00:00-03:00"""
        return self.local(minute).isoformat()


def list_of_days(days: list[date]) -> str:
    """Tue 10 and Thu 12 March; runs of days as Tue 10 to Fri 13 March; months are said where they change."""
    runs: list[list[date]] = []
    for day in days:
        if runs and (day - runs[-1][-1]).days == 1:
            runs[-1].append(day)
        else:
            runs.append([day])
    ends = [end for run in runs for end in (run[0], run[-1])]
    said = []
    for place, end in enumerate(ends):
        last_of_month = place + 1 == len(ends) or ends[place + 1].month != end.month
        new_month = place > 0 and ends[place - 1].month != end.month
        said.append(usual(end) if last_of_month or new_month else f"{weekday(end)} {end.day}")
    words = []
    for number, run in enumerate(runs):
        first, last = said[2 * number], said[2 * number + 1]
        words.append(last if len(run) == 1 else f"{first} to {last}")
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def whole_days(minutes: int) -> str:
    """A stretch as 3 days where it is days, else as hours and minutes."""
    days, rest = divmod(minutes, DAY)
    return length(minutes) if rest or not days else f"{days} day" if days == 1 else f"{days} days"
