"""A drying layer wets its own room."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from waits_air import START, air_of, hours, steady, wait

from sequencer.air.moist import humidity_ratio, vapour_pressure
from sequencer.terms.minute import HOUR
from sequencer.waits.clock import wait_clock
from sequencer.waits.rate import rate
from sequencer.waits.wetting import AIR_DENSITY, WetRoom, damp, damp_words, wetted

COAT = wait("joint compound", 17.0, at=21.0)
ROOM = WetRoom(water=5.0, volume=13.0, changes=0.5)


def by_small_steps(room: WetRoom, temperature: float, humidity: float) -> float:
    """Humidity [0..1] a long way into the drying, stepped minute by minute through the same balance."""
    came_in = ratio = humidity_ratio(vapour_pressure(temperature, humidity))
    saturated = vapour_pressure(temperature, 1.0)
    mass = AIR_DENSITY * room.volume
    for _ in range(60 * 60):
        now = min(ratio * 101.325 / (0.621945 + ratio) / saturated, 1.0)
        gives = room.water / COAT.hours * rate(COAT.law, temperature, now, COAT.at_temperature)
        ratio += (came_in - ratio) * room.changes / 60 + gives / 60 / mass
    return min(ratio * 101.325 / (0.621945 + ratio) / saturated, 1.0)


@pytest.mark.parametrize(
    ("changes", "temperature", "humidity"), [(0.5, 18.0, 0.6), (3.0, 12.0, 0.75), (10.0, 20.0, 0.4)]
)
def test_the_room_settles_where_a_balance_in_small_steps_settles(
    changes: float, temperature: float, humidity: float
) -> None:
    room = WetRoom(5.0, 13.0, changes)
    settled = wetted(COAT, steady(temperature, humidity), room).humidity[0]
    assert settled == pytest.approx(by_small_steps(room, temperature, humidity), abs=0.005)


@settings(max_examples=60)
@given(st.floats(0.1, 20), st.floats(5, 60), st.floats(0.1, 20), st.floats(6, 30), st.floats(0.2, 0.95))
def test_all_the_water_given_off_leaves_with_the_air(
    water: float, volume: float, changes: float, temperature: float, humidity: float
) -> None:
    room = WetRoom(water, volume, changes)
    air = steady(temperature, humidity, hours=1)
    settled = float(wetted(COAT, air, room).humidity[0])
    given_off = water / COAT.hours * rate(COAT.law, temperature, settled, COAT.at_temperature)
    came, went = (humidity_ratio(vapour_pressure(temperature, share)) for share in (humidity, settled))
    assert room.exchange * (went - came) == pytest.approx(given_off, rel=1e-3, abs=1e-4)


@settings(max_examples=40)
@given(st.floats(6, 30), st.floats(0.2, 0.95), st.floats(0.1, 15), st.floats(0.1, 15))
def test_more_water_or_less_air_never_makes_the_room_drier(
    temperature: float, humidity: float, one: float, other: float
) -> None:
    air = steady(temperature, humidity, hours=1)
    little, much = min(one, other), max(one, other)

    def settled(water: float, changes: float) -> float:
        return float(wetted(COAT, air, WetRoom(water, 13.0, changes)).humidity[0])

    assert humidity <= settled(little, 1.0) <= settled(much, 1.0) + 1e-9
    assert settled(2.0, much) <= settled(2.0, little) + 1e-9


def test_a_layer_without_water_leaves_the_air_as_it_is() -> None:
    air = air_of([10.0, 20.0], [0.5, 0.9])
    assert wetted(COAT, air, WetRoom(0.0, 13.0, 0.5)).humidity.tolist() == pytest.approx(air.humidity.tolist())


def test_hours_read_by_a_meter_have_the_water_in_them_already() -> None:
    air = steady(18.0, 0.6, how="reading")
    assert np.array_equal(wetted(COAT, air, ROOM).humidity, air.humidity)


def test_in_the_air_it_makes_itself_a_coat_takes_longer() -> None:
    air = steady(18.0, 0.6)
    assert wait_clock(COAT, wetted(COAT, air, ROOM)).hours(START) > 2 * wait_clock(COAT, air).hours(START)


def test_the_plan_can_say_how_damp_and_what_would_help() -> None:
    air = steady(18.0, 0.6, hours=200)
    ready = START + round(HOUR * wait_clock(COAT, wetted(COAT, air, ROOM)).hours(START))
    found = damp(COAT, air, ROOM, 0.85, START, ready)
    assert found is not None
    assert found.hours == -(-(ready - START) // HOUR)
    assert damp_words(found, ROOM) == (
        "5.0 kg of water dry into 13 m3: the room stands above 85 % for 143 h, 94 % at the worst; a window or fan that "
        "brings 30 m3/h or a dehumidifier of 1.4 litres a day would hold it there"
    )


def test_the_fan_named_holds_the_room_at_the_limit() -> None:
    air = steady(18.0, 0.6)
    found = damp(COAT, air, ROOM, 0.85, START, START + 48 * HOUR)
    assert found is not None
    assert found.fan is not None
    aired = WetRoom(ROOM.water, ROOM.volume, found.fan / ROOM.volume)
    assert wetted(COAT, air, aired).humidity[0] == pytest.approx(0.85, abs=1e-3)


def test_the_dryer_named_takes_what_the_air_does_not_take_at_the_limit() -> None:
    air = steady(18.0, 0.6)
    found = damp(COAT, air, ROOM, 0.85, START, START + 48 * HOUR)
    assert found is not None
    given_off = ROOM.water / COAT.hours * rate(COAT.law, 18.0, 0.85, COAT.at_temperature)
    came, went = (humidity_ratio(vapour_pressure(18.0, share)) for share in (0.6, 0.85))
    assert found.litres / 24 + ROOM.exchange * (went - came) == pytest.approx(given_off, rel=1e-6)


def test_where_the_air_outside_the_layer_is_too_damp_itself_only_a_dryer_helps() -> None:
    found = damp(COAT, steady(18.0, 0.9), ROOM, 0.85, START, START + 48 * HOUR)
    assert found is not None
    assert found.fan is None
    assert "fan" not in damp_words(found, ROOM)


def test_a_room_that_stays_dry_says_nothing() -> None:
    assert damp(COAT, steady(18.0, 0.6), WetRoom(0.2, 40.0, 4.0), 0.85, START, START + 48 * HOUR) is None


def test_hours_of_a_wait_are_not_changed_by_wetting_it_without_water() -> None:
    air = steady(18.0, 0.6)
    assert wait_clock(COAT, wetted(COAT, air, WetRoom(0.0, 13.0, 1.0))).hours(START) == hours(
        "joint compound", 17.0, air, at=21.0
    )
