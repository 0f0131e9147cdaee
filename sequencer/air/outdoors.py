"""Outdoor air as a source for a room: a forecast, then a typical year, brought indoors."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sequencer.air.moist import (
    Floats,
    humidity_ratio,
    saturation_pressure,
    saturation_pressure_over_water,
    standard_pressure,
    vapour_pressure_of_ratio,
)
from sequencer.terms.air import Outdoors, TypicalYear
from sequencer.terms.minute import HOUR, Minute

_LEAP_DAY = 59
"""29 February, counted from 1 January as 0."""
_LEAP_YEAR = 366


class OutdoorAir(NamedTuple):
    """Temperature [C] and humidity [0..1] over liquid water: float64[n], nan where nothing is known."""

    temperature: Floats
    humidity: Floats


def outdoor_air(outdoors: Outdoors, first: Minute, hours: int) -> OutdoorAir:
    """Outdoor air of so many hours from a whole hour on: the forecast where it reaches, else the typical year."""
    if outdoors.typical is None:
        air = OutdoorAir(np.full(hours, np.nan), np.full(hours, np.nan))
    else:
        places = _places_in_year(outdoors.typical, first, hours)
        year = outdoors.typical
        air = OutdoorAir(np.array(year.temperature)[places], np.array(year.humidity)[places])
    forecast = outdoors.forecast
    if forecast is not None:
        begin = (forecast.first - first) // HOUR
        known = np.arange(max(begin, 0), min(begin + len(forecast.temperature), hours))
        for figures, foreseen in ((air.temperature, forecast.temperature), (air.humidity, forecast.humidity)):
            hours_known = np.array(foreseen)[known - begin]
            figures[known] = np.where(np.isnan(hours_known), figures[known], hours_known)
    return air


def brought_indoors(outside: OutdoorAir, inside: Floats, gain: float = 0.0, altitude: float = 0.0) -> Floats:
    """Humidity [0..1] of outdoor air at the room's temperature [C], float64[n]: its water kept, `gain` [kg/kg] added.

    Outdoor humidity counts over liquid water, also in frost, as weather services report it. Never above saturation:
    what is too much condenses.
    """
    pressure = standard_pressure(altitude)
    vapour = outside.humidity * saturation_pressure_over_water(outside.temperature)
    ratio = humidity_ratio(vapour, pressure) + gain
    return np.minimum(vapour_pressure_of_ratio(ratio, pressure) / saturation_pressure(inside), 1.0)


def _places_in_year(year: TypicalYear, first: Minute, hours: int) -> NDArray[np.int64]:
    """Which hour of the typical year each hour falls on; 29 February takes the 28th's."""
    middles = first + year.offset + HOUR // 2 + HOUR * np.arange(hours, dtype=np.int64)
    local = np.datetime64(0, "m") + middles.astype("timedelta64[m]")
    day = local.astype("datetime64[D]")
    this_year = day.astype("datetime64[Y]")
    new_year = this_year.astype("datetime64[D]")
    days = (day - new_year).astype(np.int64)
    leap = ((this_year + np.timedelta64(1, "Y")).astype("datetime64[D]") - new_year).astype(np.int64) == _LEAP_YEAR
    days -= leap & (days >= _LEAP_DAY)
    places: NDArray[np.int64] = days * 24 + (local - day).astype("timedelta64[h]").astype(np.int64)
    return places
