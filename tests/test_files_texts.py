"""Hands-on time, limits, waits and references, in the words of a recipe."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files.hours_text import parse_work
from sequencer.files.limits_text import parse_limits
from sequencer.files.refs import parse_closing, parse_given, parse_ref
from sequencer.files.sources import Sources
from sequencer.files.tree import Text
from sequencer.files.wait_text import parse_wait
from sequencer.files.wrong import Wrong
from sequencer.terms.laws import DEPTH_LAWS, LAW_NAMES
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait

HERE = Place("recipes/x.yaml", 9, 13)
SOURCES = Sources({"c": "common practice, no source", "d": "ASTM D5957 5.4"})
OPEN = Sources({"c": "common practice, no source"}, "this job")


@pytest.mark.parametrize(
    ("text", "area", "minutes"),
    [
        ("2 h (c)", 100.0, 120),
        ("0.25 h/m2 (c)", 10.0, 150),
        ("0.25 h/m2, least 1 h (c)", 1.0, 60),
        ("1 h + 0.2 h/m2 (c)", 5.0, 120),
        ("30 min + 3 min/ft2 (c)", 0.09290304, 33),
        ("0.1 h/m2 (c)", 0.11, 1),
    ],
)
def test_hands_on_time_counts_the_area(text: str, area: float, minutes: int) -> None:
    assert parse_work(text, HERE, SOURCES).minutes(area) == minutes


def test_hands_on_time_has_a_range_and_the_full_words_of_its_source() -> None:
    hours = parse_work("0.25 h/m2, least 1 h, 0.8 to 1.6 times (c)", HERE, SOURCES)
    assert (hours.low, hours.high, hours.source, hours.place) == (0.8, 1.6, "common practice, no source", HERE)


def test_a_number_without_a_letter_is_refused_in_a_recipe_and_is_this_jobs_in_a_change() -> None:
    with pytest.raises(Wrong, match="names no source"):
        parse_work("2 h", HERE, SOURCES)
    assert parse_work("2 h", HERE, OPEN).source == "this job"
    assert parse_work("2 h (mine)", HERE, OPEN).source == "mine"
    assert parse_work("2 h (c)", HERE, OPEN).source == "common practice, no source"


def test_limits_for_the_work_are_one_and_those_before_it_another() -> None:
    assert parse_limits("10 to 32 C, at most 85 %, 48 h before at least 10 C", HERE, "s") == (
        Limit("while working", HERE, coldest=10.0, hottest=32.0, dampest=0.85, source="s"),
        Limit("before", HERE, coldest=10.0, hours_before=48.0, source="s"),
    )


@pytest.mark.parametrize(
    ("text", "fields"),
    [
        ("at least 50 F", {"coldest": 10.0}),
        ("at most 32 C", {"hottest": 32.0}),
        ("50 to 90 F", {"coldest": 10.0, "hottest": 32.2222}),
        ("-5 to 5 C", {"coldest": -5.0, "hottest": 5.0}),
        ("40 to 70 %", {"driest": 0.4, "dampest": 0.7}),
        ("surface 3 C above dew point", {"above_dew_point": 3.0}),
        ("surface 5 F above dew point", {"above_dew_point": 2.7778}),
    ],
)
def test_a_limit_is_read(text: str, fields: dict[str, float]) -> None:
    (limit,) = parse_limits(text, HERE, "s")
    for name in ("coldest", "hottest", "driest", "dampest", "above_dew_point"):
        value = getattr(limit, name)
        assert value is None if name not in fields else value == pytest.approx(fields[name], abs=1e-3)


def test_a_wait_is_read_with_all_its_parts_in_any_order() -> None:
    text = (
        "water film law, within 24 h, after 4 h at 21 C 50 %, 0.7 to 1.5 times, never under 2 h, 2 mm deep, "
        "stops below 5 C, spoils above 90 % (d)"
    )
    source = "ASTM D5957 5.4"
    assert parse_wait("coat 2", text, HERE, SOURCES) == Wait(
        purpose="coat 2",
        law="water film",
        hours=4.0,
        place=HERE,
        source=source,
        at_temperature=21.0,
        at_humidity=0.5,
        floor_hours=2.0,
        within_minutes=1440,
        low=0.7,
        high=1.5,
        thickness=2.0,
        limits=(
            Limit("stops", HERE, coldest=5.0, source=source),
            Limit("spoils", HERE, dampest=0.9, source=source),
        ),
    )


def test_within_may_count_from_ready() -> None:
    wait = parse_wait("next", "after 30 min, within 1 h of ready, fixed (c)", HERE, SOURCES)
    assert (wait.within_minutes, wait.within_of_ready, wait.hours) == (60, True, 0.5)


@pytest.mark.parametrize("law", LAW_NAMES)
def test_every_law_can_be_named(law: str) -> None:
    words = "fixed" if law == "fixed" else f"{law} law"
    assert parse_wait("next", f"after 4 h, {words} (c)", HERE, SOURCES).law == law


@pytest.mark.parametrize("law", [law for law in LAW_NAMES if law != "fixed"])
def test_only_laws_that_know_depth_take_one(law: str) -> None:
    text = f"after 4 h, 1/16 in deep, {law} law (c)"
    if law in DEPTH_LAWS:
        assert parse_wait("next", text, HERE, SOURCES).thickness == pytest.approx(1.5875)
    else:
        with pytest.raises(Wrong, match="knows no depth"):
            parse_wait("next", text, HERE, SOURCES)


def test_all_that_is_wrong_in_a_wait_is_told_at_once() -> None:
    text = Text("after soon, cemment law, 5 apples", HERE)
    with pytest.raises(Wrong) as raised:
        parse_wait("next", text, HERE, SOURCES)
    faults = raised.value.faults(HERE)
    assert [fault.place.column for fault in sorted(faults)] == [13, 19, 25, 38]


@pytest.mark.parametrize("within", [1, 3.9])
def test_a_wait_must_be_ready_before_its_latest_start(within: float) -> None:
    with pytest.raises(Wrong, match="before the layer is ready"):
        parse_wait("next", f"after 4 h, within {within} h, cement law (c)", HERE, SOURCES)


def test_a_reference_names_a_step_and_what_it_is_ready_for() -> None:
    ref = parse_ref(Text("coat 2 ready for water", HERE))
    assert (ref.who, ref.purpose, ref.place) == ("coat 2", "water", HERE)
    assert parse_ref(Text("coat 1", HERE)).purpose is None


def test_a_state_may_be_given_when_ready() -> None:
    given_state = parse_given(Text("wall tile set when ready for grout", HERE))
    assert (given_state.state, given_state.purpose) == ("wall tile set", "grout")


def test_a_surface_opens_when_ready_or_when_a_step_is_done() -> None:
    assert parse_closing(Text("until ready for foot", HERE), "keep off").purpose == "foot"
    assert parse_closing(Text("until drain is done", HERE), "leave").until_done == "drain"


WORDS = ["after", "4 h", "at 21 C", "50 %", ",", "within", "of ready", "cement law", "fixed", "0.7 to 1.5 times", "(c)"]
WORDS += [
    "10 to 32 C",
    "at least",
    "48 h before",
    "surface 3 C above dew point",
    "least",
    "h/m2",
    "0.25",
    "to",
    "%",
    "(",
]


@given(st.lists(st.sampled_from(WORDS), max_size=8).map(" ".join))
@settings(max_examples=300)
def test_no_mix_of_words_makes_a_reader_stumble(text: str) -> None:
    node = Text(text, HERE)
    for read in (
        lambda: parse_work(node, HERE, SOURCES),
        lambda: parse_limits(node, HERE, "s"),
        lambda: parse_wait("next", node, HERE, OPEN),
        lambda: parse_closing(node, "leave"),
    ):
        try:
            read()
        except Wrong as wrong:
            assert wrong.said
