"""A drying layer wets its own room."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from waits_air import HERE, START, air_of, hours, steady, wait

from sequencer.air.moist import humidity_ratio, vapour_pressure
from sequencer.terms.minute import HOUR
from sequencer.terms.wait import Limit
from sequencer.waits.clock import Drying, wait_clock
from sequencer.waits.damp import Damp, damp, damp_words
from sequencer.waits.limits import broken_hours
from sequencer.waits.rate import rate
from sequencer.waits.wetting import AIR_DENSITY, Layer, WetAir, WetRoom, drying, wetted

COAT = wait("joint compound", 17.0, at=21.0)
ROOM = WetRoom(volume=13.0, changes=0.5)
FIVE = Layer(5.0, drying(COAT))


def layer(water: float) -> tuple[Layer]:
    """So much water [kg] in a coat."""
    return (Layer(water, drying(COAT)),)


def damp_until(ready: int, humidity: float = 0.6, room: WetRoom = ROOM, water: float = 5.0) -> Damp | None:
    """How damp a coat of so much water makes a room of 18 C."""
    air = steady(18.0, humidity, hours=200)
    return damp(air, room, ((Layer(water, drying(COAT)), (START, ready)),), 0.85)


def by_small_steps(water: float, room: WetRoom, temperature: float, humidity: float) -> float:
    """Humidity [0..1] a long way into the drying, stepped minute by minute through the same balance."""
    came_in = ratio = humidity_ratio(vapour_pressure(temperature, humidity))
    saturated = vapour_pressure(temperature, 1.0)
    mass = AIR_DENSITY * room.volume
    for _ in range(60 * 60):
        now = min(ratio * 101.325 / (0.621945 + ratio) / saturated, 1.0)
        gives = water / COAT.hours * rate(COAT.law, temperature, now, COAT.at_temperature)
        ratio += (came_in - ratio) * room.changes / 60 + gives / 60 / mass
    return min(ratio * 101.325 / (0.621945 + ratio) / saturated, 1.0)


@pytest.mark.parametrize(
    ("changes", "temperature", "humidity"), [(0.5, 18.0, 0.6), (3.0, 12.0, 0.75), (10.0, 20.0, 0.4)]
)
def test_the_room_settles_where_a_balance_in_small_steps_settles(
    changes: float, temperature: float, humidity: float
) -> None:
    room = WetRoom(13.0, changes)
    settled = wetted(steady(temperature, humidity), room, layer(5.0)).humidity[0]
    assert settled == pytest.approx(by_small_steps(5.0, room, temperature, humidity), abs=0.005)


@settings(max_examples=60)
@given(st.floats(0.1, 20), st.floats(5, 60), st.floats(0.1, 20), st.floats(6, 30), st.floats(0.2, 0.95))
def test_all_the_water_given_off_leaves_with_the_air(
    water: float, volume: float, changes: float, temperature: float, humidity: float
) -> None:
    room = WetRoom(volume, changes)
    air = steady(temperature, humidity, hours=1)
    settled = float(wetted(air, room, layer(water)).humidity[0])
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
        return float(wetted(air, WetRoom(13.0, changes), layer(water)).humidity[0])

    assert humidity <= settled(little, 1.0) <= settled(much, 1.0) + 1e-9
    assert settled(2.0, much) <= settled(2.0, little) + 1e-9


def test_a_layer_without_water_leaves_the_air_as_it_is() -> None:
    air = air_of([10.0, 20.0], [0.5, 0.9])
    assert wetted(air, WetRoom(13.0, 0.5), layer(0.0)).humidity.tolist() == pytest.approx(air.humidity.tolist())


def test_hours_read_by_a_meter_have_the_water_in_them_already() -> None:
    air = steady(18.0, 0.6, how="reading")
    assert np.array_equal(wetted(air, ROOM, (FIVE,)).humidity, air.humidity)


def test_in_the_air_it_makes_itself_a_coat_takes_longer() -> None:
    air = steady(18.0, 0.6)
    assert wait_clock(COAT, wetted(air, ROOM, (FIVE,))).hours(START) > 2 * wait_clock(COAT, air).hours(START)


def test_the_plan_can_say_how_damp_and_what_would_help() -> None:
    air = steady(18.0, 0.6, hours=200)
    ready = START + round(HOUR * wait_clock(COAT, wetted(air, ROOM, (FIVE,))).hours(START))
    found = damp_until(ready)
    assert found is not None
    assert found.hours == -(-(ready - START) // HOUR)
    assert damp_words(found, 5.0, 13.0) == (
        "5.0 kg of water dry into 13 m3: the room stands above 85 % for 143 h, 94 % at the worst; a window or fan that "
        "brings 30 m3/h in these hours or a dehumidifier of 1.4 litres a day would hold it there"
    )


def test_the_fan_named_holds_the_room_at_the_limit() -> None:
    found = damp_until(START + 48 * HOUR)
    assert found is not None
    assert found.fan is not None
    aired = WetRoom(ROOM.volume, found.fan / ROOM.volume)
    assert wetted(steady(18.0, 0.6), aired, (FIVE,)).humidity[0] == pytest.approx(0.85, abs=1e-3)


def test_the_dryer_named_takes_what_the_air_does_not_take_at_the_limit() -> None:
    found = damp_until(START + 48 * HOUR)
    assert found is not None
    given_off = 5.0 / COAT.hours * rate(COAT.law, 18.0, 0.85, COAT.at_temperature)
    came, went = (humidity_ratio(vapour_pressure(18.0, share)) for share in (0.6, 0.85))
    assert found.litres / 24 + ROOM.exchange * (went - came) == pytest.approx(given_off, rel=1e-6)


def test_where_the_air_outside_the_layer_is_too_damp_itself_only_a_dryer_helps() -> None:
    found = damp_until(START + 48 * HOUR, humidity=0.9)
    assert found is not None
    assert found.fan is None
    assert "fan" not in damp_words(found, 5.0, 13.0)


def test_a_room_that_stays_dry_says_nothing() -> None:
    assert damp_until(START + 48 * HOUR, room=WetRoom(40.0, 4.0), water=0.2) is None


def test_hours_of_a_wait_are_not_changed_by_wetting_it_without_water() -> None:
    air = steady(18.0, 0.6)
    assert wait_clock(COAT, wetted(air, WetRoom(13.0, 1.0), layer(0.0))).hours(START) == hours(
        "joint compound", 17.0, air, at=21.0
    )


def test_two_layers_make_the_room_damper_than_either_and_only_while_both_are_there() -> None:
    air = steady(18.0, 0.6, hours=10)
    (one,), (other,) = layer(2.0), layer(3.0)
    both = wetted(air, ROOM, (one,), ((other, (START + 2 * HOUR + 1, START + 4 * HOUR + 1)),)).humidity
    alone, together = wetted(air, ROOM, (one,)).humidity, wetted(air, ROOM, (one, other)).humidity
    assert both[:2].tolist() == alone[:2].tolist()
    assert both[2:5] == pytest.approx(together[2:5], abs=1e-8)
    assert both[5:].tolist() == alone[5:].tolist()
    assert bool(np.all(together > alone))


def test_two_halves_of_a_layer_wet_the_room_as_the_whole_does() -> None:
    air = air_of([10.0, 20.0, 25.0], [0.5, 0.7, 0.9])
    halves = wetted(air, ROOM, layer(2.5) + layer(2.5)).humidity
    assert halves == pytest.approx(wetted(air, ROOM, (FIVE,)).humidity, abs=1e-8)


def test_a_layer_that_does_not_dry_by_its_own_law_gives_off_its_water_as_a_wet_surface() -> None:
    """In the air of its hours, so much an hour; in half as dry air half as much (Dalton)."""
    mortar = drying(wait("cement", 48.0, at=21.0))
    assert mortar.law == "wet surface"
    assert rate(mortar.law, 21.0, 0.5, mortar.at_temperature) == pytest.approx(1.0)
    assert rate(mortar.law, 21.0, 0.75, mortar.at_temperature) == pytest.approx(0.5)


def test_what_is_too_dry_and_what_cures_by_moisture_is_not_helped_by_wet_layers() -> None:
    air = steady(20.0, 0.3)
    wet = wetted(air, ROOM, (FIVE,))
    assert wet.humidity[0] > 0.6
    assert broken_hours(Limit("while working", HERE, driest=0.4), wet).all()
    assert hours("sealant", 24.0, wet) == hours("sealant", 24.0, air)


def test_a_longer_wait_of_a_layer_goes_on_in_the_rooms_air_once_its_water_is_gone() -> None:
    """The wait for steam: as damp as the coat makes it until the hour in which the coat is dry is out."""
    air = steady(18.0, 0.6, hours=400)
    wet, steam = wetted(air, ROOM, (FIVE,)), wait("paint", 60.0)
    own = Drying(wait_clock(COAT, wet), air)
    clock = wait_clock(steam, wet, own)
    gone = own.gone(np.array([START]))[0]
    done = (gone - START) / HOUR * rate("paint", 18.0, float(wet.humidity[0]))
    expected = (gone - START) / HOUR + (60.0 - done) / rate("paint", 18.0, 0.6)
    assert clock.hours(START) == pytest.approx(expected, abs=0.02)
    assert wait_clock(steam, air).hours(START) < clock.hours(START) < wait_clock(steam, wet).hours(START)
    assert clock.for_one(START).hours(START) == clock.hours(START)
    assert clock.share(START, gone) == pytest.approx(done / 60.0, abs=1e-3)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(4, 30), st.integers(20, 99)), min_size=24, max_size=24),
    st.floats(0.1, 6), st.floats(1, 80), st.sampled_from(("paint", "water film", "screed", "cement", "sealant")),
    st.booleans(),
)  # fmt: skip
def test_with_its_own_water_gone_in_between_ready_never_falls_and_lies_between_wet_air_and_dry(
    hours: list[tuple[int, int]], water: float, longer: float, law: str, staged: bool
) -> None:
    """That it never falls is asserted by the clock itself; a stage behind it changes nothing of that."""
    air = air_of([float(warm) for warm, _ in hours] * 40, [damp / 100 for _, damp in hours] * 40)
    wet = wetted(air, ROOM, layer(water))
    then = (wait("paint", 3.0),) if staged else ()
    steam = replace(wait(law, longer), then=then)
    ends = START + np.arange(0, 24 * HOUR, 7)
    between = wait_clock(steam, wet, Drying(wait_clock(COAT, wet), air)).ready(ends)
    assert bool(np.all(wait_clock(steam, air).ready(ends) <= between))
    assert bool(np.all(between <= wait_clock(steam, wet).ready(ends)))
    one = wait_clock(steam, wet, Drying(wait_clock(COAT, wet), air)).for_one(int(ends[100]))
    assert one.ready(ends[100:101])[0] == between[100]


def test_a_wait_in_hours_that_layers_wet_is_the_wait_in_the_whole_of_that_air() -> None:
    air = steady(18.0, 0.6, hours=60)
    wet = WetAir(air, ROOM, (FIVE,), ((FIVE, (START + 20 * HOUR, START + 29 * HOUR)),))
    ends = np.arange(START - 9 * HOUR, START + 90 * HOUR, 17, dtype=np.int64)
    assert wait_clock(COAT, wet).ready(ends).tolist() == wait_clock(COAT, wet.whole).ready(ends).tolist()
    assert (
        wait_clock(COAT, wet).ready(ends).tolist() != wait_clock(COAT, wetted(air, ROOM, (FIVE,))).ready(ends).tolist()
    )
