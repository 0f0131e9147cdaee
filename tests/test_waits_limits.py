"""The four things a limit does."""

from __future__ import annotations

import pytest
from waits_air import HERE, START, air_of, minutes

from sequencer.terms.wait import Limit, LimitKind, Wait
from sequencer.waits.clock import wait_clock
from sequencer.waits.limits import broken_hours
from sequencer.waits.progress import NEVER


def limit(kind: LimitKind, **bounds: float) -> Limit:
    return Limit(kind, HERE, **bounds)


def wait(*limits: Limit) -> Wait:
    return Wait("next", "fixed", 3.0, HERE, "c", limits=limits)


def test_hours_outside_a_limit_break_it_and_hours_on_it_do_not() -> None:
    air = air_of([9.9, 10, 20, 32, 32.1, 20, 20], [0.5, 0.5, 0.5, 0.5, 0.5, 0.85, 0.86])
    bounds = limit("while working", coldest=10.0, hottest=32.0, dampest=0.85, driest=0.5)
    assert broken_hours(bounds, air).tolist() == [True, False, False, False, True, False, True]


def test_air_too_dry_breaks_a_limit_too() -> None:
    assert broken_hours(limit("spoils", driest=0.3), air_of([20, 20], [0.29, 0.3])).tolist() == [True, False]


def test_a_bound_given_in_fahrenheit_is_not_broken_by_the_last_digit_of_its_conversion() -> None:
    bound = (50.0 - 32.0) * 5.0 / 9.0 + 1e-12
    assert broken_hours(limit("while working", coldest=bound), air_of([10.0])).tolist() == [False]


@pytest.mark.parametrize(
    ("temperature", "humidity", "refused"), [(23, 0.85, True), (20, 0.5, False), (10, 0.8, False), (10, 0.83, True)]
)
def test_a_wall_nearer_than_three_degrees_to_the_dew_point_is_refused(
    temperature: float, humidity: float, refused: bool
) -> None:
    """Surface at least 3 C above dew point: MIL-HDBK-1110 9.6.6 (5 F, seen).

    Dew points: 20.34 C for 23 C 85 %, 9.27 C for 20 C 50 %, 6.71 C for 10 C 80 % (ASHRAE form, computed).
    """
    margin = limit("while working", above_dew_point=3.0)
    assert broken_hours(margin, air_of([temperature], [humidity])).tolist() == [refused]


@pytest.mark.parametrize(
    ("degrees", "bounds", "refused"),
    [
        (9.0, {"coldest": 10.0}, True),
        (10.0, {"coldest": 10.0}, False),
        (3.5, {"coldest": 4.0}, True),
        (36.0, {"hottest": 35.0}, True),
        (34.0, {"coldest": 10.0, "hottest": 35.0}, False),
    ],
)
def test_the_limits_of_board_and_joint_treatment_are_kept(
    degrees: float, bounds: dict[str, float], refused: bool
) -> None:
    """ASTM C840 4.1 (seen): joint treatment from 10 C, hanging board from 4 C, temporary heat to 35 C."""
    assert broken_hours(limit("while working", **bounds), air_of([degrees])).tolist() == [refused]


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
    clock = wait_clock(frost, air)
    assert clock.unspoilt(ends, clock.ready(ends)).tolist() == [True, False, True]
