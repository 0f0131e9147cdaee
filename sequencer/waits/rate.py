"""The pace of a law in some air, relative to a wait's own reference air."""

from __future__ import annotations

from functools import lru_cache
from typing import overload

import numpy as np

from sequencer.air.moist import Floats
from sequencer.terms.wait import Wait
from sequencer.waits.table import LAWS


@overload
def rate(
    law: str,
    temperature: float,
    humidity: float,
    at_temperature: float | None = ...,
    at_humidity: float | None = ...,
) -> float: ...
@overload
def rate(
    law: str,
    temperature: Floats,
    humidity: Floats,
    at_temperature: float | None = ...,
    at_humidity: float | None = ...,
) -> Floats: ...
def rate(
    law: str,
    temperature: float | Floats,
    humidity: float | Floats,
    at_temperature: float | None = None,
    at_humidity: float | None = None,
) -> float | Floats:
    """How much faster (> 1) or slower (< 1) a law goes at temperature [C] and humidity [0..1] than in reference air.

    The reference is the law's own where `at_temperature` [C] or `at_humidity` [0..1] is None. Plain floats in, plain
    float out; arrays in, array out. KeyError for a law the table lacks; ValueError for a reference without progress.
    """
    reference = _reference_drive(law, at_temperature, at_humidity)
    pace = LAWS[law].family.drive(np.asarray(temperature, np.float64), np.asarray(humidity, np.float64)) / reference
    return pace if isinstance(temperature, np.ndarray) else float(pace)


@lru_cache(maxsize=1024)
def _reference_drive(law: str, at_temperature: float | None, at_humidity: float | None) -> float:
    entry = LAWS[law]
    temperature = entry.temperature if at_temperature is None else at_temperature
    humidity = entry.humidity if at_humidity is None else at_humidity
    drive = float(entry.family.drive(np.asarray(temperature), np.asarray(humidity)))
    if not drive > 0.0:
        raise ValueError(f"{law} makes no progress in its reference air")
    return drive


def depth_factor(wait: Wait) -> float:
    """What the depth of a wait's layer multiplies its hours by; 1 where no depth is said or its law knows none."""
    depth = LAWS[wait.law].depth
    return 1.0 if depth is None or wait.thickness is None else depth.factor(wait.thickness)
