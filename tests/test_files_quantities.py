"""Quantities are read as a person writes them, metric and US, and nothing else is taken for one."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files import quantities as q
from sequencer.files.tree import Text, cut, pieces
from sequencer.files.wrong import Wrong, listed, nearest
from sequencer.terms.place import Place

Parse = Callable[..., Any]

READ = [
    (q.parse_duration, "45 min", 45),
    (q.parse_duration, "4 h", 240),
    (q.parse_duration, "1 h 30 min", 90),
    (q.parse_duration, "1.5h", 90),
    (q.parse_duration, "2 d", 2880),
    (q.parse_duration, "1 day", 1440),
    (q.parse_duration, "2 weeks", 20160),
    (q.parse_length, "2.4 m", 2.4),
    (q.parse_length, "240 cm", 2.4),
    (q.parse_length, "2 mm", 0.002),
    (q.parse_length, "8 ft", 2.4384),
    (q.parse_length, "1/16 in", 0.0015875),
    (q.parse_length, "1 1/2 in", 0.0381),
    (q.parse_length, "5 ft 2 in", 1.5748),
    (q.parse_area, "5.6 m2", 5.6),
    (q.parse_area, "60 ft2", 5.57418),
    (q.parse_temperature, "18 C", 18.0),
    (q.parse_temperature, "-2 C", -2.0),
    (q.parse_temperature, "65 F", 18.3333),
    (q.parse_temperature, "32 F", 0.0),
    (q.parse_temperature, "18 °C", 18.0),
    (q.parse_temperature_difference, "5 F", 2.7778),
    (q.parse_temperature_difference, "3 C", 3.0),
    (q.parse_humidity, "65 %", 0.65),
    (q.parse_humidity, "65%", 0.65),
    (q.parse_working_days, "5 working days", 5),
    (q.parse_working_days, "1 working day", 1),
    (q.parse_work_time, "half a day", 240),
    (q.parse_work_time, "2 working days", 960),
    (q.parse_work_time, "90 min", 90),
    (q.parse_count, "3", 3),
    (q.parse_number, "1/16", 0.0625),
]
"""International foot 0.3048 m exactly, so 60 ft2 = 5.574 m2; C = (F - 32) * 5/9 by definition."""


@pytest.mark.parametrize(("parse", "text", "value"), READ, ids=lambda each: each if isinstance(each, str) else "")
def test_a_quantity_is_read(parse: Parse, text: str, value: float) -> None:
    assert parse(text) == pytest.approx(value, abs=1e-4)


REFUSED = [
    (q.parse_duration, ["", "4", "h", "4 hrs", "four h", "4 h and a bit", "4,5 h", "-4 h", "4 h 30"]),
    (q.parse_length, ["2.4", "2.4 yd", "2,4 m", "8'", "2 m2"]),
    (q.parse_area, ["5 m", "5", "5 sqft"]),
    (q.parse_temperature, ["18", "18 K", "18 Celcius", "200 C", "warm", "", "- C"]),
    (q.parse_humidity, ["65", "165 %", "damp", "", "-5 %"]),
    (q.parse_working_days, ["5 days", "5", "a few working days", "5.5 working days"]),
    (q.parse_count, ["0", "-1", "2.5", "two", ""]),
    (q.parse_number, ["1/0", "2,5", "", "x", "1e9", "١"]),
]


@pytest.mark.parametrize(
    ("parse", "text"), [(parse, text) for parse, texts in REFUSED for text in texts], ids=lambda each: str(each)[:20]
)
def test_anything_else_is_refused_with_words_for_it(parse: Parse, text: str) -> None:
    with pytest.raises(Wrong) as raised:
        parse(text)
    assert all(said.what and said.write for said in raised.value.said)


def test_a_fault_points_at_the_part_of_the_text_that_is_wrong() -> None:
    text = Text("1 h 30 mins", Place("job.yaml", 7, 12))
    with pytest.raises(Wrong) as raised:
        q.parse_duration(text)
    assert str(raised.value.faults(Place("job.yaml"))[0]).startswith('job.yaml:7:19: "mins" is no unit of time')


def test_a_text_of_the_command_line_gets_the_place_it_is_given() -> None:
    with pytest.raises(Wrong) as raised:
        q.parse_duration("soon")
    assert [fault.place for fault in raised.value.faults(Place("--after"))] == [Place("--after")]


@given(st.integers(1, 99_999))
@settings(max_examples=50)
def test_a_length_of_work_is_read_back_as_it_was_said(minutes: int) -> None:
    assert q.parse_duration(q.length_words(minutes)) == minutes


@given(st.text(max_size=30), st.sampled_from([parse for parse, _ in REFUSED]))
@settings(max_examples=300)
def test_no_text_makes_a_parser_stumble(text: str, parse: Parse) -> None:
    try:
        parse(text)
    except Wrong as wrong:
        assert wrong.said


@given(st.lists(st.text("abc, ", max_size=6), min_size=1, max_size=5))
@settings(max_examples=100)
def test_the_parts_of_a_text_know_their_columns(parts: list[str]) -> None:
    whole = Text(",".join(parts), Place("x", 3, 5))
    for piece in pieces(whole):
        assert isinstance(piece, Text)
        start = piece.place.column - 5
        assert whole[start : start + len(piece)] == piece
        assert cut(str(whole), start, start + len(piece)) == piece


def test_words_are_listed_as_they_are_spoken() -> None:
    assert [listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"], "or")] == [
        "",
        "a",
        "a and b",
        "a, b or c",
    ]


def test_the_nearest_word_is_proposed_else_all_of_them_if_they_are_few() -> None:
    assert nearest("Titel", ["title", "place"]) == 'write "title"'
    assert nearest("x", ["title", "place"]) == "write title or place"
    assert nearest("x", [str(number) for number in range(99)]) == "see the words in docs/files.md"
