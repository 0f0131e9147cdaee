"""Moist air against printed values and against two independent programs."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import psychrolib
import pytest
from CoolProp.HumidAirProp import HAPropsSI
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from sequencer.air.moist import (
    dew_point,
    dew_point_of,
    humidity_ratio,
    saturation_pressure,
    saturation_pressure_over_water,
    standard_pressure,
    vapour_pressure,
    vapour_pressure_of_ratio,
)

DATA = Path(__file__).parent / "data"
ROWS = list(csv.DictReader((DATA / "psychrometrics.csv").open(encoding="utf-8")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['kind']} at {row['temperature_c']} C")
def test_saturation_is_as_ashrae_prints_it(row: dict[str, str]) -> None:
    pressure = saturation_pressure(float(row["temperature_c"]))
    ours = 1000 * pressure if "Pa" in row["kind"] else humidity_ratio(pressure)
    assert ours == pytest.approx(float(row["expected"]), rel=float(row["tolerance"]))


def test_vapour_at_25_c_and_75_percent_is_as_a_worked_example_has_it() -> None:
    """University thermodynamics notes (seen): 100 kPa, 2.38 kPa, 0.0152 kg/kg."""
    vapour = vapour_pressure(25.0, 0.75)
    assert vapour == pytest.approx(2.38, abs=0.01)
    assert humidity_ratio(vapour, 100.0) == pytest.approx(0.0152, abs=0.0001)


def test_air_of_40_c_with_a_wet_bulb_of_20_c_is_as_ashrae_works_it_out() -> None:
    """ASHRAE F2017 chapter 1 example 1 (seen): W 0.0065, dew point 7 C, 14 %; wet bulb by its equation 33."""
    dry, wet = 40.0, 20.0
    saturated = humidity_ratio(saturation_pressure(wet))
    ratio = ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
    assert ratio == pytest.approx(0.0065, abs=0.0001)
    vapour = vapour_pressure_of_ratio(ratio)
    assert dew_point_of(np.array([vapour]))[0] == pytest.approx(7.0, abs=0.5)
    assert vapour / saturation_pressure(40.0) == pytest.approx(0.14, abs=0.01)


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"), [(20, 0.5, 9.27), (25, 0.6, 16.70), (23, 0.85, 20.34), (10, 0.8, 6.71)]
)
def test_dew_points_are_as_computed_from_the_ashrae_form(temperature: float, humidity: float, expected: float) -> None:
    assert dew_point(temperature, humidity) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(("altitude", "pascal"), [(0, 101325), (500, 95461), (1000, 89875)])
def test_pressure_falls_with_altitude_as_ashrae_prints_it(altitude: float, pascal: float) -> None:
    """ASHRAE F2017 chapter 1 table 1 (seen)."""
    assert 1000 * standard_pressure(altitude) == pytest.approx(pascal, abs=1.0)


@pytest.mark.parametrize(("temperature", "percent"), [(-5, 5.1), (-10, 10.4), (-20, 22.0)])
def test_water_below_zero_holds_more_than_ice_by_the_known_share(temperature: float, percent: float) -> None:
    """Computed: Magnus over water against the ASHRAE form over ice; Magnus is within 0.3 % of our water form."""
    share = 100 * (saturation_pressure_over_water(temperature) / saturation_pressure(temperature) - 1)
    assert share == pytest.approx(percent, abs=0.4)


def test_from_0_to_40_c_magnus_and_the_ashrae_form_differ_by_at_most_0_3_percent() -> None:
    degrees = np.arange(0.0, 40.5, 0.5)
    magnus = 0.6112 * np.exp(17.62 * degrees / (243.12 + degrees))
    assert np.max(np.abs(magnus / saturation_pressure(degrees) - 1)) <= 0.003


@settings(max_examples=60)
@given(st.floats(-40, 60), st.floats(0.05, 1.0))
def test_every_state_agrees_with_psychrolib(temperature: float, humidity: float) -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)
    vapour = vapour_pressure(temperature, humidity)
    assert 1000 * vapour == pytest.approx(psychrolib.GetVapPresFromRelHum(temperature, humidity), rel=1e-4, abs=1e-4)
    assert humidity_ratio(vapour) == pytest.approx(psychrolib.GetHumRatioFromVapPres(1000 * vapour, 101325), rel=1e-4)
    theirs = psychrolib.GetTDewPointFromRelHum(temperature, humidity)
    assert dew_point(temperature, humidity) == pytest.approx(theirs, abs=0.02)


@settings(max_examples=40)
@given(st.floats(-20, 45), st.floats(0.1, 0.99))
def test_every_state_agrees_with_coolprop_real_gas_air(temperature: float, humidity: float) -> None:
    """CoolProp's humid air has enhancement factors, so its ratio is up to 0.6 % above an ideal mixture's."""
    state = ("T", temperature + 273.15, "P", 101325, "R", humidity)
    assert humidity_ratio(vapour_pressure(temperature, humidity)) == pytest.approx(HAPropsSI("W", *state), rel=0.007)
    assert dew_point(temperature, humidity) == pytest.approx(HAPropsSI("D", *state) - 273.15, abs=0.05)


@settings(max_examples=60)
@given(st.floats(-40, 60), st.floats(0.01, 1.0))
def test_air_cooled_to_its_dew_point_is_saturated(temperature: float, humidity: float) -> None:
    """Between the two forms' values for 0 C, 0.61115 and 0.61121 kPa, no temperature belongs to a pressure."""
    vapour = vapour_pressure(temperature, humidity)
    assume(not 0.6111 < vapour < 0.6113)
    assert saturation_pressure(float(dew_point(temperature, humidity))) == pytest.approx(vapour, rel=1e-6)


def test_saturated_air_of_0_c_has_its_dew_point_at_0_c() -> None:
    assert dew_point(0.0, 1.0) == pytest.approx(0.0, abs=0.01)


def test_dry_air_has_no_dew_point() -> None:
    assert dew_point(20.0, 0.0) == -np.inf


def test_arrays_and_plain_numbers_give_the_same() -> None:
    temperatures, humidities = np.array([-10.0, 0.0, 25.0]), np.array([0.9, 0.5, 0.2])
    together = dew_point(temperatures, humidities)
    one_by_one = [dew_point(float(t), float(h)) for t, h in zip(temperatures, humidities, strict=True)]
    assert together.tolist() == pytest.approx(one_by_one, abs=1e-9)
