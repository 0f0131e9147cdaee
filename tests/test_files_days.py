"""Days, hours and air are read as a person writes them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files.air_text import IN_WORDS, AirPart, parse_air
from sequencer.files.clock import parse_hour, parse_hours
from sequencer.files.days import day_words, parse_day, parse_days, parse_weekdays
from sequencer.files.wrong import Wrong

Parse = Callable[..., Any]
START = date(2026, 3, 2)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2 March 2026", START),
        ("Mon 2 March 2026", START),
        ("Monday 2 mar 2026", START),
        ("2026-03-02", START),
        ("Mon 2026-03-02", START),
        ("2 March", START),
        ("1 March", date(2027, 3, 1)),
        ("24 April", date(2026, 4, 24)),
        ("20 February", date(2027, 2, 20)),
        ("29 February", date(2028, 2, 29)),
    ],
)
def test_a_day_is_read_and_without_a_year_it_is_the_first_from_the_start(text: str, day: date) -> None:
    assert parse_day(text, START) == day


def test_the_day_of_an_order_is_the_nearest_one() -> None:
    assert parse_day("20 February", START, nearest_year=True) == date(2026, 2, 20)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "2nd March",
        "31 April",
        "29 February 2026",
        "Tue 2 March 2026",
        "Fun 2 March",
        "2 Marchh",
        "2 March 1026",
        "2 March 20260",
        "9999-01-01",
        "2026-13-01",
    ],
)
def test_what_is_no_day_is_refused(text: str) -> None:
    with pytest.raises(Wrong):
        parse_day(text, START)


def test_a_day_without_a_year_needs_a_start() -> None:
    with pytest.raises(Wrong, match="has no year"):
        parse_day("2 March")


@given(st.dates(date(2000, 1, 1), date(2199, 12, 31)))
@settings(max_examples=50)
def test_a_day_is_read_back_as_it_was_said(day: date) -> None:
    assert parse_day(day_words(day)) == day


@pytest.mark.parametrize(
    ("text", "first", "out"),
    [
        ("24 March to 26 March", date(2026, 3, 24), date(2026, 3, 27)),
        ("28 December to 3 January", date(2026, 12, 28), date(2027, 1, 4)),
        ("until 26 March", START, date(2026, 3, 26)),
        ("3 April", date(2026, 4, 3), date(2026, 4, 4)),
    ],
)
def test_to_counts_its_last_day_and_until_does_not(text: str, first: date, out: date) -> None:
    assert parse_days(text, START) == (first, out)


def test_a_span_does_not_end_before_it_begins() -> None:
    with pytest.raises(Wrong, match="before it begins"):
        parse_days("26 March 2026 to 24 March 2026", START)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Mon to Fri", {0, 1, 2, 3, 4}),
        ("Tue and Thu", {1, 3}),
        ("Mon, Wed, Sat", {0, 2, 5}),
        ("Sat to Mon", {5, 6, 0}),
        ("Tuesday", {1}),
        ("Mon to Wed and Fri", {0, 1, 2, 4}),
    ],
)
def test_days_of_the_week_are_read(text: str, days: set[int]) -> None:
    assert parse_weekdays(text) == days


@pytest.mark.parametrize(
    ("text", "minute"), [("08:00", 480), ("8 am", 480), ("3:30 pm", 930), ("12 am", 0), ("12 pm", 720), ("24:00", 1440)]
)
def test_an_hour_is_read(text: str, minute: int) -> None:
    assert parse_hour(text) == minute


@pytest.mark.parametrize("text", ["8", "25:00", "13 pm", "0 am", "08:60", "24:30", "noon", ""])
def test_what_is_no_hour_is_refused(text: str) -> None:
    with pytest.raises(Wrong):
        parse_hour(text)


def test_hours_run_forward_unless_they_may_pass_midnight() -> None:
    assert parse_hours("8 am-4:30 pm") == (480, 990)
    assert parse_hours("22:00 - 06:00", over_midnight=True) == (1320, 360)
    with pytest.raises(Wrong):
        parse_hours("22:00-06:00")


@pytest.mark.parametrize(
    ("text", "how", "parts"),
    [
        ("17 C 65 %", "stated", [AirPart(17.0, 0.65, None)]),
        ("65 %", "stated", [AirPart(None, 0.65, None)]),
        (
            "14 C 08:00-16:00, 9 C otherwise, 75 %",
            "stated",
            [AirPart(14.0, None, (480, 960)), AirPart(9.0, None, "otherwise"), AirPart(None, 0.75, None)],
        ),
        ("heated to 20 C", "heated", [AirPart(20.0, None, None)]),
        ("dried to 50 %", "dried", [AirPart(None, 0.5, None)]),
        (
            "heated to 20 C 08:00-16:00, 16 C otherwise, dried to 50 %, floor at 14 C",
            "heated",
            [
                AirPart(20.0, None, (480, 960)),
                AirPart(16.0, None, "otherwise"),
                AirPart(None, 0.5, None, "dried"),
                AirPart(None, None, None, floor=14.0),
            ],
        ),
        ("17 C 75 %, dried to 50 %", "stated", [AirPart(17.0, 0.75, None), AirPart(None, 0.5, None, "dried")]),
        (
            "12 C 22:00-06:00, 18 C otherwise",
            "stated",
            [AirPart(12.0, None, (1320, 360)), AirPart(18.0, None, "otherwise")],
        ),
        ("59 F 8 am-4 pm", "stated", [AirPart(15.0, None, (480, 960))]),
    ],
)
def test_air_is_read(text: str, how: str, parts: list[AirPart]) -> None:
    air = parse_air(text)
    assert list(air.parts) == [replace(part, how=how) if part.how == "stated" else part for part in parts]


@pytest.mark.parametrize("words", IN_WORDS)
def test_air_in_words_says_both_figures_for_the_whole_day(words: str) -> None:
    air = parse_air(words)
    assert air.in_words
    assert {part.how for part in air.parts} == {"in words"}
    for figure in ("temperature", "humidity"):
        said = [part.when for part in air.parts if getattr(part, figure) is not None]
        assert None in said or "otherwise" in said


@pytest.mark.parametrize(
    "text",
    [
        "warm",
        "17",
        "17 C, 18 C",
        "9 C otherwise",
        "17 C 65 % 08:00",
        "heated to",
        "heated to 50 %",
        "dried to 20 C",
        "dried to 20 C 50 %",
        "floor at 12 C",
        "17 C, floor at 12 C, floor at 14 C",
        "14 C, heated to 20 C",
        "17 C,",
    ],
)
def test_what_is_no_air_is_refused(text: str) -> None:
    with pytest.raises(Wrong):
        parse_air(text)


PARSERS = [parse_day, parse_days, parse_weekdays, parse_hour, parse_hours, parse_air]


@given(st.sampled_from(PARSERS), st.text("0123456789:- amptoCF%,MonTue Marchuntil", max_size=24))
@settings(max_examples=300)
def test_no_text_makes_a_reader_of_days_stumble(parse: Parse, text: str) -> None:
    try:
        parse(text, START) if parse in (parse_day, parse_days) else parse(text)
    except Wrong as wrong:
        assert wrong.said


def test_every_day_of_a_year_can_be_said_without_it() -> None:
    for number in range(365):
        day = START + timedelta(days=number)
        assert parse_day(f"{day.day} {day:%B}", START) == day
