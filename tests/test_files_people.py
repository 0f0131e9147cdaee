"""A person's hours become working days in UTC: holidays, breaks, days away, changes of the clock."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from dateutil.easter import easter
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files.calendar_days import Calendar, days_between
from sequencer.files.holidays_text import holidays_between, parse_holidays
from sequencer.files.house_text import EVERY_DAY, WeekHours, parse_week_hours
from sequencer.files.job_model import PersonModel
from sequencer.files.job_texts import AskBy
from sequencer.files.people import merged, trade_of, trimmed, without, workdays
from sequencer.files.tree import Text
from sequencer.terms.job import Trade
from sequencer.terms.minute import utc
from sequencer.terms.place import Place

HALIFAX = ZoneInfo("America/Halifax")
PLACE = Place("job.yaml", 3, 1)


def person(**said: object) -> PersonModel:
    return PersonModel.model_construct(**said)  # type: ignore[arg-type]


def every_day(first: int, last: int) -> tuple[WeekHours, ...]:
    return (WeekHours(EVERY_DAY, first, last),)


def local(calendar: Calendar, *spans: tuple[int, int]) -> list[str]:
    return [f"{utc(a).astimezone(calendar.zone):%d %H:%M}-{utc(b).astimezone(calendar.zone):%H:%M}" for a, b in spans]


def trade(said: PersonModel, calendar: Calendar, today: date, start: date, days: int) -> Trade:
    return trade_of("plumber", said, PLACE, calendar, today, start, start + timedelta(days=days))


def test_hours_stay_on_the_wall_clock_over_both_changes_of_the_clock() -> None:
    calendar = Calendar(HALIFAX)
    for first in (date(2026, 3, 6), date(2026, 10, 30)):
        days = workdays(person(), calendar, first, first + timedelta(days=4))
        assert [local(calendar, *day.spans) for day in days.values()] == [
            [f"{day:%d} 08:00-16:00"] for day in days_between(first, first + timedelta(days=4)) if day.weekday() < 5
        ]


def test_the_same_wall_hour_lies_an_hour_earlier_in_utc_in_summer() -> None:
    calendar = Calendar(HALIFAX)
    winter, summer = calendar.minute(date(2026, 3, 6), 480), calendar.minute(date(2026, 3, 9), 480)
    assert (utc(winter).hour, utc(summer).hour) == (12, 11)


def test_work_through_the_night_of_the_change_has_the_hours_that_pass() -> None:
    calendar = Calendar(HALIFAX)
    always = person(days=frozenset(range(7)), hours=every_day(0, 24 * 60))
    days = workdays(always, calendar, date(2026, 3, 7), date(2026, 3, 10))
    assert [sum(end - start for start, end in day.spans) / 60 for day in days.values()] == [24, 23, 24]
    days = workdays(always, calendar, date(2026, 10, 31), date(2026, 11, 3))
    assert [sum(end - start for start, end in day.spans) / 60 for day in days.values()] == [24, 25, 24]


@given(
    st.sampled_from(["America/Halifax", "Europe/London", "Australia/Lord_Howe", "America/Phoenix", "America/St_Johns"]),
    st.dates(date(2025, 1, 1), date(2028, 1, 1)),
    st.integers(0, 1439),
)
@settings(max_examples=150)
def test_a_moment_of_a_day_is_the_first_at_which_the_clock_shows_it(zone: str, day: date, minute: int) -> None:
    calendar = Calendar(ZoneInfo(zone))
    shown = utc(calendar.minute(day, minute)).astimezone(calendar.zone)
    wall = datetime(day.year, day.month, day.day, minute // 60, minute % 60)
    exists = wall.replace(tzinfo=calendar.zone).astimezone(UTC).astimezone(calendar.zone).replace(tzinfo=None) == wall
    assert (shown.replace(tzinfo=None) == wall) == exists
    assert shown.fold == 0 or not exists


def test_breaks_set_up_and_clean_up_are_taken_off() -> None:
    calendar = Calendar(HALIFAX)
    said = person(hours=every_day(480, 990), break_=((720, 750), (600, 615)), set_up=15, clean_up=15)
    (day,) = workdays(said, calendar, date(2026, 3, 2), date(2026, 3, 3)).values()
    assert local(calendar, *day.spans) == ["02 08:15-10:00", "02 10:15-12:00", "02 12:30-16:15"]


def test_set_up_longer_than_the_first_hours_goes_on_after_the_break() -> None:
    assert trimmed([(0, 30), (60, 120)], 45, 15) == [(75, 105)]
    assert trimmed([(0, 30)], 20, 20) == []


@given(st.lists(st.tuples(st.integers(0, 50), st.integers(1, 20)), max_size=4))
@settings(max_examples=100)
def test_a_hole_takes_away_exactly_its_minutes(holes: list[tuple[int, int]]) -> None:
    spans, open_minutes = [(0, 60)], set(range(60))
    for start, length in holes:
        spans = without(spans, (start, start + length))
        open_minutes -= set(range(start, start + length))
    assert {minute for start, end in spans for minute in range(start, end)} == open_minutes


def test_nobody_comes_on_days_away_holidays_and_closed_days_but_some_work_on_holidays() -> None:
    friday, monday = date(2026, 4, 3), date(2026, 4, 6)
    calendar = Calendar(HALIFAX, {friday: "Good Friday"}, {monday: "closed"})
    span = (date(2026, 4, 1), date(2026, 4, 9))
    assert [day.day for day in workdays(person(), calendar, *span)] == [1, 2, 7, 8]
    away = person(away=((date(2026, 4, 2), date(2026, 4, 8)),), holidays=True)
    assert [day.day for day in workdays(away, calendar, *span)] == [1, 8]
    assert [day.day for day in workdays(person(holidays=True), calendar, *span)] == [1, 2, 3, 7, 8]


def test_notice_counts_working_days_of_the_place_from_today() -> None:
    calendar = Calendar(HALIFAX, {date(2026, 4, 3): "Good Friday"})
    found = trade(person(notice=5), calendar, date(2026, 3, 30), date(2026, 4, 1), 30)
    assert found.earliest == calendar.midnight(date(2026, 4, 7))
    assert (found.notice_days, found.notice_words) == (5, "5 working days")
    assert trade(person(), calendar, date(2026, 3, 30), date(2026, 4, 1), 30).earliest is None


def test_the_last_moment_to_ask_for_a_monday_is_on_the_friday_before() -> None:
    calendar = Calendar(HALIFAX)
    found = trade(person(ask_by=AskBy(15 * 60, 1)), calendar, date(2026, 3, 2), date(2026, 3, 2), 8)
    assert len(found.ask_by) == len(found.days)
    asked = [utc(minute).astimezone(HALIFAX) for minute in found.ask_by]
    assert [f"{moment:%a %d %H:%M}" for moment in asked][:2] == ["Fri 27 15:00", "Mon 02 15:00"]
    assert f"{asked[5]:%a %d %H:%M}" == "Fri 06 15:00"


def test_the_job_wins_key_by_key_over_the_people_of_the_house() -> None:
    common = person(days=frozenset({1, 3}), notice=5, hands=2)
    own = PersonModel.model_construct(_fields_set={"notice"}, notice=2)
    both = merged(common, own)
    assert (both.days, both.notice, both.hands) == (frozenset({1, 3}), 2, 2)
    assert merged(None, None).days is None


@pytest.mark.parametrize("year", range(2024, 2031))
def test_good_friday_is_where_easter_puts_it(year: int) -> None:
    """Easter after Meeus, Jones and Butcher, as dateutil computes it."""
    named = holidays_between(("CA", "NS"), date(year, 1, 1), date(year + 1, 1, 1))
    assert named[easter(year) - timedelta(days=2)] == "Good Friday"


def test_a_place_without_holidays_has_none() -> None:
    assert parse_holidays("none") is None
    assert holidays_between(None, date(2026, 1, 1), date(2027, 1, 1)) == {}
    assert parse_holidays("CA NS") == ("CA", "NS")
    assert parse_holidays("GB") == ("GB", None)


def week(*texts: str) -> tuple[WeekHours, ...]:
    return tuple(parse_week_hours(Text(text, PLACE)) for text in texts)


def test_hours_may_differ_from_day_to_day_and_then_say_the_days() -> None:
    calendar = Calendar(HALIFAX)
    said = person(hours=week("Mon to Thu 09:00-15:00", "Sat 9 am-11 am"), break_=((600, 615),))
    days = workdays(said, calendar, date(2026, 3, 2), date(2026, 3, 9))
    assert [local(calendar, *day.spans)[0] for day in days.values()] == [
        *(f"{day:02d} 09:00-10:00" for day in (2, 3, 4, 5)), "07 09:00-10:00",
    ]  # fmt: skip
    thursdays = person(hours=week("Mon to Thu 09:00-15:00"), days=frozenset({3, 4}))
    assert [day.day for day in workdays(thursdays, calendar, date(2026, 3, 2), date(2026, 3, 9))] == [5]


def test_who_comes_at_some_hour_of_two_windows_comes_in_one_of_them() -> None:
    calendar = Calendar(HALIFAX)
    monday = date(2026, 3, 2)
    said = {"hours": week("09:00-12:00", "13:00-15:00"), "ask_by": AskBy(15 * 60, 1)}
    there, some_hour = (trade(person(hour_known=known, **said), calendar, monday, monday, 1) for known in (True, False))
    assert [local(calendar, *day.spans) for day in there.days] == [["02 09:00-12:00", "02 13:00-15:00"]]
    assert [local(calendar, *day.spans) for day in some_hour.days] == [["02 09:00-12:00"], ["02 13:00-15:00"]]
    assert len(set(some_hour.ask_by)) == 1
    assert len(some_hour.ask_by) == 2
