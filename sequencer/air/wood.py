"""The moisture wood comes to in some air, in the end: what decides whether it may be fitted there.

Hailwood-Horrobin with the constants of Simpson 1998, USDA Forest Products Laboratory, FPL-RN-0268 (SI form, seen).
"""

from __future__ import annotations

from typing import overload

import numpy as np

from sequencer.air.moist import Floats

_WEIGHT = (349.0, 1.29, 0.0135)
_K = (0.805, 0.000736, -0.00000273)
_K1 = (6.27, -0.00938, -0.000303)
_K2 = (1.91, 0.0407, -0.000293)
_SCALE = 18.0
"""1800 for a percentage, as a share."""


@overload
def wood_moisture(temperature: float, humidity: float) -> float: ...
@overload
def wood_moisture(temperature: Floats, humidity: Floats) -> Floats: ...
def wood_moisture(temperature: float | Floats, humidity: float | Floats) -> float | Floats:
    """Equilibrium moisture of wood [kg water / kg dry wood] in air of temperature [C] and humidity [0..1]."""
    weight, k, k1, k2 = (a + temperature * (b + temperature * c) for a, b, c in (_WEIGHT, _K, _K1, _K2))
    x = k * np.clip(humidity, 0.0, 1.0)
    bound = (k1 * x + 2.0 * k1 * k2 * x**2) / (1.0 + k1 * x + k1 * k2 * x**2)
    moisture = _SCALE / weight * (x / (1.0 - x) + bound)
    return moisture if isinstance(temperature, np.ndarray) else float(moisture)
