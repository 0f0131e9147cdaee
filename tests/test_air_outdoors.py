"""Outdoor air as a source for a room."""

from __future__ import annotations

import csv
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.air.hourly import RoomAir, assumptions, hourly_air
from sequencer.air.moist import dew_point, humidity_ratio, vapour_pressure
from sequencer.air.outdoors import OutdoorAir, brought_indoors
from sequencer.terms.air import AirReading, AirSaid, AirStatement, OutdoorHours, Outdoors, TypicalYear
from sequencer.terms.minute import DAY, HOUR, Minute, minute_of
from sequencer.terms.place import Place

HERE = Place("job.yaml", 12, 3)
ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "outdoor_air_heated.csv").open(encoding="utf-8")))


def indoors(out: float, percent: float, inside: float, **more: float) -> float:
    """Humidity [%] of outdoor air at [C], [%] in a room of [C]."""
    outside = OutdoorAir(np.array([out]), np.array([percent / 100]))
    return 100 * float(brought_indoors(outside, np.array([inside]), **more)[0])


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['out_c']} C {row['out_pct']} % to {row['in_c']} C")
def test_outdoor_air_heated_is_as_computed(row: dict[str, str]) -> None:
    """Computed: Magnus over liquid water at any temperature, which is how outdoor humidity is reported; within 1 %.

    From 0 C up the ASHRAE form gives the same.
    """
    ours = indoors(float(row["out_c"]), float(row["out_pct"]), float(row["in_c"]))
    assert ours == pytest.approx(float(row["in_pct_magnus"]), rel=0.01, abs=0.06)
    if float(row["out_c"]) >= 0:
        assert ours == pytest.approx(float(row["in_pct_ashrae"]), abs=0.06)
        assert dew_point(float(row["in_c"]), ours / 100) == pytest.approx(float(row["dew_point_c"]), abs=0.05)


@pytest.mark.parametrize(
    ("out", "percent", "inside", "expected"),
    [(0, 80, 20, 20.9), (5, 90, 18, 38.0), (10, 80, 30, 23.1)],
)
def test_three_single_cases_hold(out: float, percent: float, inside: float, expected: float) -> None:
    """First two computed; the third, W 0.006, seen in a university lab sheet (secondary), its humidity computed."""
    assert indoors(out, percent, inside) == pytest.approx(expected, abs=0.2)
    assert humidity_ratio(vapour_pressure(10.0, 0.8)) == pytest.approx(0.006, abs=0.0003)


def test_damp_summer_air_in_a_cool_room_condenses_instead_of_passing_saturation() -> None:
    """30 C 70 % cooled to 23 C (computed)."""
    assert indoors(30, 70, 23) == 100.0


def test_water_of_people_and_building_is_added() -> None:
    gained = indoors(0, 80, 20, gain=0.002)
    assert gained == pytest.approx(indoors(0, 80, 20) + 100 * 0.3235 / 2.339, abs=0.3)


def test_up_in_the_mountains_the_same_gain_weighs_less() -> None:
    assert indoors(0, 80, 20, gain=0.002, altitude=2000.0) < indoors(0, 80, 20, gain=0.002)


@settings(max_examples=60)
@given(st.floats(-30, 35), st.floats(5, 100), st.floats(5, 30), st.floats(0, 0.01))
def test_indoor_humidity_is_never_above_saturation_nor_below_none(
    out: float, percent: float, inside: float, gain: float
) -> None:
    assert 0.0 < indoors(out, percent, inside, gain=gain) <= 100.0


# A room whose air rests on the weather ----------------------------------------------------------------------------

HALIFAX = -4 * 60


def typical(offset: int = HALIFAX) -> TypicalYear:
    """A year whose temperature is the day of the year and whose humidity [%] is the hour of the day, both in place."""
    days, hours = np.divmod(np.arange(8760), 24)
    return TypicalYear(offset, tuple(days / 10.0), tuple(hours / 100.0))


def air_of(outdoors: Outdoors, start: Minute, days: int = 1, said: AirSaid | None = None) -> RoomAir:
    said = said or AirSaid()
    return hourly_air(AirSaid(said.statements, said.readings, outdoors), start, start + days * DAY)


def moment(*parts: int) -> Minute:
    return minute_of(datetime(*parts, tzinfo=UTC))  # type: ignore[misc, arg-type]


def test_a_typical_year_is_laid_on_the_dates_of_the_job_in_the_places_standard_time() -> None:
    air = air_of(Outdoors(typical=typical()), moment(2026, 3, 2, 4))
    assert air.temperature[0] == pytest.approx((31 + 28 + 1) / 10)
    assert np.round(100 * air.humidity).tolist()[:4] == [0, 1, 2, 3]
    assert (air.at(air.first).how_temperature, air.at(air.first).how_humidity) == ("outdoors", "outdoors")
    assert assumptions(air) == ()


def test_29_february_takes_the_28ths_air_and_december_31_is_the_last_day_in_every_year() -> None:
    for year, day, expected in ((2028, (2, 29), 58), (2028, (3, 1), 59), (2028, (12, 31), 364), (2027, (12, 31), 364)):
        air = air_of(Outdoors(typical=typical()), moment(year, *day, 12))
        assert air.temperature[0] == pytest.approx(expected / 10)


def test_a_forecast_wins_over_the_typical_year_where_it_reaches() -> None:
    start = moment(2026, 3, 2, 0)
    forecast = OutdoorHours(start - 2 * HOUR, (1.0, 2.0, 3.0, 4.0), (0.9, 0.9, 0.9, 0.9))
    air = air_of(Outdoors(forecast, typical()), start)
    assert air.temperature[:2].tolist() == [3.0, 4.0]
    assert air.temperature[2] == pytest.approx(5.9)


def test_beyond_a_forecast_alone_the_room_is_assumed() -> None:
    start = moment(2026, 3, 2, 0)
    air = air_of(Outdoors(OutdoorHours(start, (1.0,), (0.9,))), start)
    assert [air.at(start + hour * HOUR).how_temperature for hour in (0, 1)] == ["outdoors", "assumed"]


def test_a_heated_room_is_as_dry_as_winter_air_and_no_cooler_than_summer_air() -> None:
    start = moment(2026, 3, 2, 0)
    weather = OutdoorHours(start, (0.0, 26.0), (0.8, 0.5))
    air = air_of(Outdoors(weather, heated_to=20.0), start)
    assert air.temperature[:2].tolist() == [20.0, 26.0]
    assert air.humidity[:2].tolist() == pytest.approx([0.209, 0.5], abs=0.002)


def test_outdoor_humidity_is_taken_at_the_temperature_the_room_really_has() -> None:
    start = moment(2026, 3, 2, 0)
    weather = Outdoors(OutdoorHours(start, (5.0,) * 24, (0.9,) * 24))
    heated = AirStatement(start, start + DAY, 18.0, None, "heated", HERE)
    air = air_of(weather, start, said=AirSaid((heated,)))
    assert (air.at(start).temperature, air.at(start).how_humidity) == (18.0, "outdoors")
    assert air.at(start).humidity == pytest.approx(0.380, abs=0.002)


def test_what_is_said_of_the_room_wins_over_the_weather_and_the_weather_over_an_old_reading() -> None:
    start = moment(2026, 3, 2, 0)
    weather = Outdoors(OutdoorHours(start, (5.0,) * 48, (0.9,) * 48))
    said = AirSaid(
        (AirStatement(start + DAY, start + 2 * DAY, 16.0, None, "in words", HERE),),
        (AirReading(start + HOUR // 2, 11.0, None, HERE),),
    )
    air = air_of(weather, start, 2, said)
    assert [air.at(start + hour * HOUR).temperature for hour in (0, 20, 30)] == [11.0, 5.0, 16.0]
