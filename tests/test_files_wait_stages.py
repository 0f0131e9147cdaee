"""Waits in stages, for a share of strength, and limits of wood: as written, and as clock and audit obey."""

from __future__ import annotations

import pytest
from audit_row import Row
from hypothesis import given, settings
from hypothesis import strategies as st
from tiny_jobs import air, job, limit, room, step, wait
from waits_air import START, air_of, minutes, steady

from sequencer.audit.slow_wait import ready
from sequencer.files.limits_text import parse_limits
from sequencer.files.sources import Sources
from sequencer.files.tree import Text
from sequencer.files.wait_text import parse_wait
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait
from sequencer.views.recipe_words import limit_words
from sequencer.waits.clock import wait_clock

HERE = Place("recipe.yaml", 9, 7)
SOURCES = Sources({"c": "common practice, no source"})


def read(text: str) -> Wait:
    """A wait as its text says it."""
    return parse_wait("next", Text(f"{text} (c)", HERE), HERE, SOURCES)


def test_stages_are_read_each_with_its_law_depth_and_stops_and_the_rest_is_the_whole_waits() -> None:
    wait = read(
        "after 90 min, setting compound law, within 9 d, then 17 h at 21 C 50 %, joint compound law, 2 mm deep, "
        "stops below 5 C, never under 24 h, spoils below 0 C, then 2 h, fixed, 0.8 to 2 times"
    )
    second, third = wait.then
    assert (wait.law, wait.hours, second.law, second.hours, third.law, third.hours) == (
        "setting compound", 1.5, "joint compound", 17.0, "fixed", 2.0
    )  # fmt: skip
    assert (second.at_temperature, second.at_humidity, second.thickness) == (21.0, 0.5, 2.0)
    assert [each.kind for each in second.limits] == ["stops"]
    assert [each.kind for each in wait.limits] == ["spoils"]
    assert (wait.floor_hours, wait.within_minutes, wait.low, wait.high) == (24.0, 9 * 1440, 0.8, 2.0)
    assert (second.floor_hours, second.within_minutes, second.low) == (None, None, 1.0)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("after 2 h, cement law, then 4 h", "names no law"),
        ("after 2 h, then 4 h, cement law", "names no law"),
        ("after 2 h, cement law, then soon, fixed", "is no time"),
        ("after 2 h, cement law, cement law", "a second time its law"),
        ("after 2 h, cement law, then 1 h, fixed, 2 mm deep", "knows no depth"),
        ("after 20 h, fixed, then 5 h, fixed, within 24 h", "before the layer is ready"),
        ("after 400 d, fixed, then 400 d, fixed", "two years"),
        ("to 50 % strength, paint law", "knows no strength"),
        ("to 50 % strength, after 2 d, cement law", "a second time how long"),
        ("to 0 % strength, cement law", "no strength at the start"),
    ],
)
def test_a_stage_that_cannot_be_is_told(text: str, told: str) -> None:
    with pytest.raises(Wrong) as raised:
        read(text)
    assert told in " ".join(str(fault) for fault in raised.value.faults(HERE))


def test_a_wait_for_strength_takes_the_hours_of_the_curve() -> None:
    """EN 1992-1-1 3.1.2 (6), s 0.25: 28 d are the whole; 9 d of 20 C are 82.6 % (seen)."""
    assert read("to 100 % strength, cement law").hours == pytest.approx(28 * 24)
    assert read("to 82.6167 % strength, cement law").hours == pytest.approx(9 * 24, rel=1e-4)
    in_words = wait_clock(read("to 70 % strength, cement law"), steady(20.0)).working(START)
    assert in_words == "114 h at 20 C to 70 % of its strength; at 20 C here, 114 h"


DEGREES = st.lists(st.floats(-3, 30), min_size=2, max_size=60)


@given(DEGREES, st.floats(0.2, 0.99), st.integers(0, 600))
@settings(max_examples=40, deadline=None)
def test_the_audit_walks_stages_as_the_clock_does(degrees: list[float], damp: float, minute: int) -> None:
    wait = read(
        "after 5 h, cement law, stops below 6 C, then 9 h at 21 C 50 %, water film law, "
        "then 3 h, fixed, never under 18 h"
    )
    there = air_of([*degrees, 15.0], damp)
    end = START + minute
    slow, fast = ready(wait, there, end), int(wait_clock(wait, there).ready(minutes(minute))[0])
    assert slow == pytest.approx(fast, abs=1)


def test_wood_has_its_limits_in_words_and_back() -> None:
    (both,) = parse_limits("wood 6 to 9 %", HERE, "s")
    assert (both.wood_driest, both.wood_dampest, both.driest, both.dampest) == (0.06, 0.09, None, None)
    assert limit_words(both) == "wood 6 to 9 %"
    (damp,) = parse_limits("18 to 27 C, wood at most 9 %", HERE, "s")
    assert limit_words(damp) == "18 to 27 C, wood at most 9 %"
    with pytest.raises(Wrong, match="no moisture of wood"):
        parse_limits("wood 18 to 27 C", HERE, "s")


DAMP_MONDAY = air(("Mon 0", "Tue 0", 20.0, 0.7), ("Tue 0", "Sun2 0", 20.0, 0.4))
DRY_WOOD: list[Limit] = [limit("while working", wood_dampest=0.09)]


def test_the_audit_sees_wood_fitted_in_air_too_damp_for_it() -> None:
    """20 C and 70 % hold wood at 13 %, 40 % at 7.7 %."""
    row = Row(
        job(step("trim", air=tuple(DRY_WOOD)), rooms=[room("bath", air=DAMP_MONDAY)]),
        {"trim": "Tue 8-9"}, {"trim": "Mon 8-9"}, ("bath/u/trim is done in air it does not allow",),
    )  # fmt: skip
    assert row.before() == ()
    assert row.after() == row.says


def test_the_audit_counts_every_stage_before_it_lets_the_next_step_start() -> None:
    staged = wait("next", 2, then=(wait("next", 20),))
    row = Row(
        job(step("a", waits=[staged]), step("b", after="a ready for next")),
        {"a": "Mon 8-9", "b": "Tue 8-9"}, {"b": "Mon 13-14"}, ("bath/u/b starts before bath/u/a is ready for next",),
    )  # fmt: skip
    assert row.before() == ()
    assert row.after() == row.says
