"""Moist air, vectorised. Temperature [C], pressure [kPa], humidity [0..1], humidity ratio [kg water / kg dry air].

Saturation pressure: Hyland and Wexler (1983) as printed in ASHRAE Handbook of Fundamentals 2017, chapter 1,
equations 5 (over ice, -100 to 0 C) and 6 (over water, 0 to 200 C). Humidity ratio: same chapter, equation 20.
Standard pressure: same chapter, equation 3.
"""

from __future__ import annotations

from typing import overload

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

KELVIN = 273.15
STANDARD_PRESSURE = 101.325
"""Pressure at sea level [kPa]."""
MASS_RATIO = 0.621945
"""Molar mass of water over that of dry air (ASHRAE F2017, chapter 1)."""

_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673)
_MAGNUS = (0.6112, 17.62, 243.12)
_STANDARD_AIR = (2.25577e-5, 5.2559)
_NEWTON_STEPS = 5


@overload
def saturation_pressure_over_water(temperature: float) -> float: ...
@overload
def saturation_pressure_over_water(temperature: Floats) -> Floats: ...
def saturation_pressure_over_water(temperature: float | Floats) -> float | Floats:
    """Pressure of saturated vapour over liquid water [kPa], below 0 C over supercooled water."""
    kelvin = temperature + KELVIN
    a, b, c, d, e, f = _WATER
    return np.exp(a / kelvin + b + kelvin * (c + kelvin * (d + kelvin * e)) + f * np.log(kelvin)) / 1000.0


@overload
def saturation_pressure_over_ice(temperature: float) -> float: ...
@overload
def saturation_pressure_over_ice(temperature: Floats) -> Floats: ...
def saturation_pressure_over_ice(temperature: float | Floats) -> float | Floats:
    """Pressure of saturated vapour over ice [kPa]."""
    kelvin = temperature + KELVIN
    a, b, c, d, e, f, g = _ICE
    powers = b + kelvin * (c + kelvin * (d + kelvin * (e + kelvin * f)))
    return np.exp(a / kelvin + powers + g * np.log(kelvin)) / 1000.0


@overload
def saturation_pressure(temperature: float) -> float: ...
@overload
def saturation_pressure(temperature: Floats) -> Floats: ...
def saturation_pressure(temperature: float | Floats) -> float | Floats:
    """Pressure of saturated vapour [kPa]: over ice below 0 C, over water from 0 C up."""
    over_water = saturation_pressure_over_water(temperature)
    if isinstance(temperature, np.ndarray):
        frost = temperature < 0.0
        return np.where(frost, saturation_pressure_over_ice(temperature), over_water) if frost.any() else over_water
    return saturation_pressure_over_ice(temperature) if temperature < 0.0 else over_water


@overload
def vapour_pressure(temperature: float, humidity: float) -> float: ...
@overload
def vapour_pressure(temperature: Floats, humidity: Floats) -> Floats: ...
def vapour_pressure(temperature: float | Floats, humidity: float | Floats) -> float | Floats:
    """Pressure of the vapour in air [kPa]."""
    return humidity * saturation_pressure(temperature)


@overload
def dew_point(temperature: float, humidity: float) -> float: ...
@overload
def dew_point(temperature: Floats, humidity: Floats) -> Floats: ...
def dew_point(temperature: float | Floats, humidity: float | Floats) -> float | Floats:
    """Temperature at which the air's vapour is saturated [C] (frost point below 0 C). -inf for dry air.

    Solved by Newton's method on the logarithm of the pressure, from the Magnus formula.
    """
    return dew_point_of(np.asarray(humidity * saturation_pressure(temperature)))[()]


def dew_point_of(pressure: Floats) -> Floats:
    """Dew point [C] of vapour of this pressure [kPa]; -inf where there is none."""
    wet = pressure > 0.0
    target = np.log(np.where(wet, pressure, 1.0))
    base, slope, offset = _MAGNUS
    ratio = target - np.log(base)
    guess = offset * ratio / (slope - ratio)
    for _ in range(_NEWTON_STEPS):
        here = np.log(saturation_pressure(guess))
        step = 1e-4
        gradient = (np.log(saturation_pressure(guess + step)) - here) / step
        guess = guess - (here - target) / gradient
    return np.where(wet, guess, -np.inf)


@overload
def humidity_ratio(vapour: float, pressure: float = ...) -> float: ...
@overload
def humidity_ratio(vapour: Floats, pressure: float = ...) -> Floats: ...
def humidity_ratio(vapour: float | Floats, pressure: float = STANDARD_PRESSURE) -> float | Floats:
    """Kilograms of water to a kilogram of dry air, from the vapour's pressure and the air's [kPa]."""
    return MASS_RATIO * vapour / (pressure - vapour)


@overload
def vapour_pressure_of_ratio(ratio: float, pressure: float = ...) -> float: ...
@overload
def vapour_pressure_of_ratio(ratio: Floats, pressure: float = ...) -> Floats: ...
def vapour_pressure_of_ratio(ratio: float | Floats, pressure: float = STANDARD_PRESSURE) -> float | Floats:
    """The vapour's pressure [kPa] from the humidity ratio and the air's pressure [kPa]."""
    return pressure * ratio / (MASS_RATIO + ratio)


def standard_pressure(altitude: float) -> float:
    """Air pressure [kPa] of the standard atmosphere at an altitude [m]."""
    lapse, exponent = _STANDARD_AIR
    return float(STANDARD_PRESSURE * (1.0 - lapse * altitude) ** exponent)
