"""The four things a limit does."""

from __future__ import annotations

import pytest
from waits_air import HERE, START, air_of, minutes

from sequencer.terms.wait import Limit, LimitKind, Wait
from sequencer.waits.clock import wait_clock
from sequencer.waits.limits import allowed, spoils
from sequencer.waits.progress import NEVER


def limit(kind: LimitKind, **bounds: float) -> Limit:
    return Limit(kind, HERE, **bounds)


def wait(*limits: Limit) -> Wait:
    return Wait("next", "fixed", 3.0, HERE, "c", limits=limits)


def test_a_start_is_forbidden_when_any_hour_of_the_work_breaks_a_limit() -> None:
    air = air_of([15, 15, 8, 15, 15])
    starts, ends = minutes(0, 0, 60, 150, 180), minutes(120, 121, 125, 200, 240)
    at_least_ten = limit("while working", coldest=10.0)
    assert allowed([at_least_ten], air, starts, ends).tolist() == [True, False, False, False, True]


def test_an_hour_on_the_limit_is_allowed() -> None:
    air = air_of([10, 32], [0.85, 0.85])
    bounds = limit("while working", coldest=10.0, hottest=32.0, dampest=0.85, driest=0.85)
    assert allowed([bounds], air, minutes(0), minutes(120)).tolist() == [True]


def test_before_counts_the_hours_before_the_start_as_well() -> None:
    air = air_of([8, 15, 15, 15, 15])
    warm_for_two_hours = limit("before", coldest=10.0, hours_before=2.0)
    starts = minutes(60, 120, 179, 180)
    assert allowed([warm_for_two_hours], air, starts, starts + 30).tolist() == [False, False, False, True]


def test_a_painter_is_refused_on_a_wall_nearer_than_three_degrees_to_the_dew_point() -> None:
    """Dew point of 23 C 85 % is 20.34 C, of 20 C 50 % 9.27 C (ASHRAE form, computed)."""
    air = air_of([23, 20], [0.85, 0.5])
    margin = limit("while working", above_dew_point=3.0)
    assert allowed([margin], air, minutes(0, 60), minutes(60, 120)).tolist() == [False, True]


def test_air_that_stops_a_wait_makes_it_longer_by_the_hours_it_lasts() -> None:
    air = air_of([15, 4, 4, 15, 15, 15, 15])
    clock = wait_clock(wait(limit("stops", coldest=5.0)), air)
    assert (clock.ready(minutes(0, 30, 90)) - START).tolist() == [300, 330, 360]


def test_a_wait_that_stops_for_good_is_never_ready() -> None:
    clock = wait_clock(wait(limit("stops", coldest=5.0)), air_of([15, 4]))
    assert clock.ready(minutes(0))[0] == NEVER
    assert clock.hours(START) == float("inf")


def test_a_layer_is_spoilt_when_its_wait_meets_a_broken_hour() -> None:
    air = air_of([15, 15, 15, 1, 15])
    frost = wait(limit("spoils", coldest=2.0))
    ends = minutes(0, 30, 240)
    readies = wait_clock(frost, air).ready(ends)
    assert spoils(frost, air, ends, readies).tolist() == [True, False, True]


@pytest.mark.parametrize("kind", ["stops", "spoils"])
def test_limits_of_the_wait_do_not_forbid_the_work(kind: LimitKind) -> None:
    air = air_of([1, 1])
    assert allowed([limit(kind, coldest=5.0)], air, minutes(0), minutes(60)).tolist() == [True]
