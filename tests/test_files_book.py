"""The site book: what a line says, which facts stand, and what a line cut short does."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files.book import Book, book_of
from sequencer.files.book_fact import EXAMPLES, KINDS, fact_of
from sequencer.files.book_line import SET_ASIDE, Line, line_text, parse_line
from sequencer.files.book_words import fact_words
from sequencer.files.calendar_days import Calendar
from sequencer.files.happened import parse_happened
from sequencer.files.tree import Text
from sequencer.terms.fact import Fact, Value
from sequencer.terms.minute import minute_of
from sequencer.terms.place import Faulty, Place

HALIFAX = ZoneInfo("America/Halifax")
CALENDAR = Calendar(HALIFAX)
WHEN = "Mon 2 March 2026 08:15, written Mon 2 March 2026 08:20"


def book(*lines: str, end: str = "\n") -> Book:
    """A book of these lines; one without a number in front gets its moments and the next number."""
    told = [line if line[0].isdigit() else f"{at}. {WHEN}: {line}" for at, line in enumerate(lines, 1)]
    return book_of(("format: 1\n" + "\n".join(told) + end).encode(), HALIFAX)


def one(words: str) -> Fact:
    """The fact of a line with these words."""
    (fact,) = book(words).facts
    return fact


def numbers(of: Book) -> list[int]:
    return [fact.number for fact in of.facts]


def test_a_line_says_when_it_happened_when_it_was_written_and_what() -> None:
    fact = one("done bathroom/grout/walls, two passes")
    assert (fact.number, fact.kind, fact.about, fact.words) == (1, "done", "bathroom/grout/walls", "two passes")
    assert fact.happened == minute_of(datetime(2026, 3, 2, 8, 15, tzinfo=HALIFAX))
    assert fact.written - fact.happened == 5
    assert fact.place == Place("site-book.txt", 2, 65)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_has_an_example_and_its_words_are_read_as_the_same_fact_again(kind: str) -> None:
    fact = one(EXAMPLES[kind])
    assert fact.kind == kind
    assert fact_words(fact, HALIFAX) == EXAMPLES[kind]


@pytest.mark.parametrize(
    ("said", "in_full"),
    [
        ("late plumber, until Thu", "late plumber, until Thu 5 March 2026"),
        ("away plumber, 12 March to 13 March", "away plumber, Thu 12 March 2026 to Fri 13 March 2026"),
        ("booked a/b/c, Tue 8 am", "booked a/b/c, Tue 3 March 2026 08:00"),
        ("ordered tile, on site by Fri", "ordered tile, on site by Fri 6 March 2026"),
        ("delivered tile, short, rest by 20 March", "delivered tile, short, rest by Fri 20 March 2026"),
    ],
)
def test_days_are_written_in_full(said: str, in_full: str) -> None:
    assert fact_words(one(said), HALIFAX) == in_full
    assert one(in_full).at == one(said).at
    assert one(in_full).span == one(said).span


@pytest.mark.parametrize(
    ("said", "value", "within"),
    [
        ("level 50 mm", Value("level", 50.0, "mm"), None),
        ("resistance 52.3 ohm, 46.8 to 57.2 ohm", Value("resistance", 52.3, "ohm", 46.8, 57.2), True),
        ("insulation 90 Mohm, at least 100 Mohm", Value("insulation", 90.0, "Mohm", 100.0, None), False),
        ("wet thickness 1/2 mm, at most 1 mm", Value("wet thickness", 0.5, "mm", None, 1.0), True),
        ("joints 12", Value("joints", 12.0, ""), None),
    ],
)
def test_a_reading_has_a_figure_a_unit_and_limits(said: str, value: Value, within: bool | None) -> None:
    assert one(f"measured a/b/c, {said}").value == value
    assert value.within is within


def test_air_is_of_a_room_and_a_layer_is_ready_for_something() -> None:
    air, layer = one("measured bathroom, 62 F 65 %"), one("measured a/b/c, not ready for tile, 84 %")
    assert air.temperature == pytest.approx(16.67, abs=0.01)
    assert (air.humidity, air.purpose) == (0.65, None)
    assert (layer.purpose, layer.ready, layer.reading) == ("tile", False, "84 %")


def test_undone_facts_do_not_stand_and_what_they_had_replaced_stands_again() -> None:
    lines = ["done a/b/c", f"2. {WHEN.replace('08:15', '09:15')}: done a/b/c"]
    assert numbers(book(*lines)) == [2]
    undone = book(*lines, "undo 2")
    assert numbers(undone) == [1]
    assert [fact.number for fact in undone.undone] == [2]
    assert undone.struck_last == 2


def test_of_a_visit_and_of_a_verdict_the_last_line_stands() -> None:
    visit = ("asked a/b/c", "booked a/b/c, Tue 08:00", "released a/b/c")
    assert numbers(book(*visit)) == [3]
    assert numbers(book("failed a/b/c", "passed a/b/c")) == [2]
    assert numbers(book("began a/b/c", "done a/b/c", "note one", "note one")) == [1, 2, 3, 4]


def test_a_tail_without_an_end_and_a_line_set_aside_say_nothing_and_are_told() -> None:
    torn = book("done a/b/c", "done a/b/d", end="")
    assert (numbers(torn), torn.aside, torn.last) == ([1], (Place("site-book.txt", 3),), 1)
    ended = book_of(f"format: 1\n1. Mon 2 Ma{SET_ASIDE}\r\n1. {WHEN}: note on\r\n".encode(), HALIFAX)
    assert (numbers(ended), ended.aside) == ([1], (Place("site-book.txt", 2),))


@pytest.mark.parametrize("data", [b"", b"form", b"format: 1", b"format: 1\n", b"\xef\xbb\xbfformat: 1\n\n"])
def test_a_book_without_a_line_is_empty(data: bytes) -> None:
    assert book_of(data, HALIFAX).facts == ()


def test_a_line_that_is_not_utf_8_is_told() -> None:
    with pytest.raises(Faulty, match="site-book.txt:2:1: this line is not UTF-8"):
        book_of(b"format: 1\n1. \xff\n", HALIFAX)


@settings(max_examples=60)
@given(st.integers(29_000_000, 30_000_000), st.integers(0, 5000), st.sampled_from(sorted(EXAMPLES.values())))
def test_what_is_written_is_read_again_to_the_minute(happened: int, later: int, words: str) -> None:
    """Two years of minutes, the hours that the clock shows twice among them."""
    line = line_text(7, happened, happened + later, words, HALIFAX)
    read = parse_line(Text(line, Place("site-book.txt")), CALENDAR)
    assert (read.number, read.happened, read.written, str(read.words)) == (7, happened, happened + later, words)
    assert fact_of(read, CALENDAR).happened == happened


def test_an_hour_the_clock_shows_twice_says_which_one() -> None:
    first = minute_of(datetime(2026, 11, 1, 1, 30, tzinfo=HALIFAX))
    lines = [line_text(1, at, at, "note x", HALIFAX) for at in (first, first + 60)]
    assert "Sun 1 November 2026 01:30 -03:00" in lines[0]
    assert "Sun 1 November 2026 01:30 -04:00" in lines[1]


@pytest.mark.parametrize(
    ("said", "day", "hour"),
    [
        ("16:30", 4, 16.5),
        ("Tue 16:30", 3, 16.5),
        ("Wed 8 am", 4, 8),
        ("Thu 9:00", -2, 9),
        ("yesterday 9:00", 3, 9),
        ("28 February 9:00", 0, 9),
        ("Tue 3 March 2026 9:00", 3, 9),
    ],
)
def test_a_moment_on_the_command_line_is_the_last_such_moment(said: str, day: int, hour: float) -> None:
    """Said on Wednesday 4 March 2026."""
    today = datetime(2026, 3, 4).date()
    midnight = minute_of(datetime(2026, 3, 1, tzinfo=HALIFAX))
    assert parse_happened(said, today, CALENDAR) == midnight + (day - 1) * 1440 + round(hour * 60)


def test_a_line_keeps_its_place_for_faults() -> None:
    line = parse_line(Text(f"1. {WHEN}: done a/b/c", Place("site-book.txt", 5)), CALENDAR)
    assert isinstance(line, Line)
    assert str(line.words.place) == "site-book.txt:5:60"
