"""Working hours as functions of time, against a walk minute by minute; and the weeks in which the clocks change."""

from __future__ import annotations

from datetime import UTC, date, datetime
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.files import read_job
from sequencer.network.hours import Openings, WorkClock
from sequencer.terms.job import Workday
from sequencer.terms.minute import minute_of

LONGEST = 400


@st.composite
def calendars(draw: st.DrawFn) -> tuple[Workday, ...]:
    """One to five days, each of one to three spans; days and spans may touch."""
    gaps = st.integers(0, 90)
    days, at = [], 1000
    for _ in range(draw(st.integers(1, 5))):
        spans = []
        for _ in range(draw(st.integers(1, 3))):
            start = at + draw(gaps)
            at = start + draw(st.integers(1, 120))
            spans.append((start, at))
        days.append(Workday(tuple(spans)))
        at += draw(gaps)
    return tuple(days)


def walked(days: tuple[Workday, ...], start: int, minutes: int) -> list[tuple[int, int]]:
    """The minutes worked from a start on, one by one, each with the number of its day; fewer if the calendar ends."""
    open_minutes = [(at, n) for n, day in enumerate(days) for a, b in day.spans for at in range(a, b) if at >= start]
    return open_minutes[:minutes]


def is_open(days: tuple[Workday, ...], at: int) -> bool:
    return any(a <= at < b for day in days for a, b in day.spans)


def one(value: int) -> np.ndarray:
    return np.array([value], dtype=np.int64)


@settings(max_examples=60, deadline=None)
@given(calendars(), st.integers(1, LONGEST), st.booleans())
def test_a_start_is_allowed_and_ends_where_a_walk_minute_by_minute_says(
    days: tuple[Workday, ...], minutes: int, one_go: bool
) -> None:
    work = WorkClock(Openings(days), minutes, one_go)
    last = days[-1].spans[-1][1]
    moments = np.arange(950, last + 50, dtype=np.int64)
    allowed, ends = work.allowed(moments), work.ends(moments)
    for at, ok, end in zip(moments.tolist(), allowed.tolist(), ends.tolist(), strict=True):
        steps = walked(days, at, minutes)
        whole = len(steps) == minutes and (not one_go or len({day for _, day in steps}) == 1)
        assert ok == (is_open(days, at) and whole)
        if ok:
            assert end == steps[-1][0] + 1
    assert bool(np.all(np.diff(ends) >= 0))


@settings(max_examples=60, deadline=None)
@given(calendars(), st.integers(1, LONGEST))
def test_pieces_hold_exactly_the_minutes_of_the_work(days: tuple[Workday, ...], minutes: int) -> None:
    work = WorkClock(Openings(days), minutes)
    moments = np.arange(1000, days[-1].spans[-1][1], 7, dtype=np.int64)
    for start in moments[work.allowed(moments)].tolist():
        pieces = work.pieces(start)
        assert [at for a, b in pieces for at in range(a, b)] == [at for at, _ in walked(days, start, minutes)]
        assert (pieces[0][0], pieces[-1][1]) == (start, int(work.ends(one(start))[0]))
        assert all(a[1] <= b[0] for a, b in pairwise(pieces))


@settings(max_examples=60, deadline=None)
@given(calendars(), st.integers(1, LONGEST))
def test_a_cushion_of_open_minutes_is_counted_as_a_walk_counts_them(days: tuple[Workday, ...], minutes: int) -> None:
    openings = Openings(days)
    moments = np.arange(950, days[-1].spans[-1][1] + 50, 11, dtype=np.int64)
    far = openings.advance(moments, minutes)
    assert bool(np.all(np.diff(far) >= 0))
    for at, then in zip(moments.tolist(), far.tolist(), strict=True):
        steps = walked(days, at, minutes)
        if len(steps) == minutes:
            assert then == steps[-1][0] + 1


@settings(max_examples=60, deadline=None)
@given(calendars())
def test_open_minutes_before_and_after_in_a_day_add_up_to_the_day(days: tuple[Workday, ...]) -> None:
    openings = Openings(days)
    for day in days:
        length = sum(b - a for a, b in day.spans)
        inside = np.array([at for a, b in day.spans for at in (a, b - 1)], dtype=np.int64)
        assert bool(np.all(openings.left_today(inside) + openings.done_today(inside + 1) == length + 1))


def test_a_whole_window_is_taken_from_its_opening_to_its_close() -> None:
    days = (Workday(((540, 720), (750, 900))), Workday(((1980, 2340),)))
    work = WorkClock(Openings(days), 30, whole_window=True)
    moments = np.arange(500, 2400, dtype=np.int64)
    assert moments[work.allowed(moments)].tolist() == [540, 1980]
    assert work.ends(np.array([540, 1980], dtype=np.int64)).tolist() == [900, 2340]


EDGES = {
    "the minute before opening": (479, False),
    "the opening": (480, True),
    "the last minute of a span": (719, True),
    "the close of a span is no start": (720, False),
    "the last start that still fits the day": (870, True),
    "a minute later does not fit": (871, False),
}


@pytest.mark.parametrize(("at", "ok"), EDGES.values(), ids=EDGES)
def test_starts_at_the_edges_of_a_day(at: int, ok: bool) -> None:
    work = WorkClock(Openings((Workday(((480, 720), (780, 960))),)), 90, one_go=True)
    assert bool(work.allowed(one(at))[0]) is ok


def test_what_takes_no_time_may_fall_on_the_close_of_a_day() -> None:
    work = WorkClock(Openings((Workday(((480, 960),)), Workday(((1920, 2400),)))), 0)
    moments = np.array([479, 480, 960, 961, 1920, 2400, 2401], dtype=np.int64)
    assert work.allowed(moments).tolist() == [False, True, True, False, True, True, False]
    assert work.ends(moments[work.allowed(moments)]).tolist() == [480, 960, 1920, 2400]


JOB = """format: 1
job: two-days
place: {{zone: {zone}}}
start: {start}
people:
  you: {{days: Mon to Sun, hours: 00:30-08:30}}
rooms:
  bath:
    areas: {{floor: 4 m2}}
    recipes:
      lay:
"""
RECIPE = """format: 1
recipe: lay
title: Lay
works on: [floor]
sources: {c: "common practice, no source"}
steps:
  lay: {hours: 1 h (c)}
"""

CLOCKS = {
    "Halifax, into summer": ("America/Halifax", "Sat 7 March 2026", ("2026-03-07 04:30", "2026-03-09 03:30"), 420),
    "Halifax, out of it": ("America/Halifax", "Sat 31 October 2026", ("2026-10-31 03:30", "2026-11-02 04:30"), 540),
    "London, into summer": ("Europe/London", "Sat 28 March 2026", ("2026-03-28 00:30", "2026-03-29 23:30"), 420),
    "London, out of it": ("Europe/London", "Sat 24 October 2026", ("2026-10-23 23:30", "2026-10-26 00:30"), 540),
}
"""Zone, start, first and third opening in UTC, length of the second day [min]; rules of the IANA zones, from memory."""


@pytest.mark.parametrize(("zone", "start", "opens", "second"), CLOCKS.values(), ids=CLOCKS)
def test_the_night_the_clocks_change_is_an_hour_shorter_or_longer(
    tmp_path: Path, zone: str, start: str, opens: tuple[str, str], second: int
) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "lay.yaml").write_text(RECIPE, "utf-8")
    (tmp_path / "job.yaml").write_text(JOB.format(zone=zone, start=start), "utf-8")
    job = read_job(tmp_path, date(2026, 1, 1))
    days = job.trades["you"].days
    openings = [minute_of(datetime.fromisoformat(words).replace(tzinfo=UTC)) for words in opens]
    assert [days[0].spans[0][0], days[2].spans[0][0]] == openings
    assert [sum(b - a for a, b in day.spans) for day in days[:3]] == [480, second, 480]
    work = WorkClock(Openings(days), 960)
    end = int(work.ends(one(openings[0]))[0])
    assert end == walked(days[:3], openings[0], 960)[-1][0] + 1
    assert [b - a for a, b in pairwise(job.half_days[:6])] == [720, 720, 720 + second - 480, 720, 720]
