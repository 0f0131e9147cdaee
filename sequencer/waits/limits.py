"""What air forbids: the hours that break a limit, and the layers they would spoil."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from sequencer.air.hourly import RoomAir
from sequencer.air.moist import dew_point
from sequencer.air.wood import wood_moisture
from sequencer.terms.minute import HOUR
from sequencer.terms.wait import Limit
from sequencer.waits.wetting import WetAir

Bools = NDArray[np.bool_]
Minutes = NDArray[np.int64]

HAIR = 1e-9
"""Figures nearer to a limit than this count as on it: guards against the last digit of a conversion, not a margin."""


def broken_hours(limit: Limit, air: RoomAir | WetAir) -> Bools:
    """bool[n]: the hours of the air that break a limit. The limit itself is still allowed.

    Whether air is too dry is asked of it without what wet layers give off.
    """
    if isinstance(air, RoomAir):
        return _broken(limit, air)
    broken, part = _broken(limit, air.rest), air.part
    if part is not None:
        first = (part.first - air.said.first) // HOUR
        broken[first : first + len(part.humidity)] = _broken(limit, part)
    return broken


def _broken(limit: Limit, air: RoomAir) -> Bools:
    broken = np.zeros(len(air.temperature), np.bool_)
    if limit.coldest is not None:
        broken |= air.temperature < limit.coldest - HAIR
    if limit.hottest is not None:
        broken |= air.temperature > limit.hottest + HAIR
    if limit.driest is not None:
        broken |= air.dry < limit.driest - HAIR
    if limit.dampest is not None:
        broken |= air.humidity > limit.dampest + HAIR
    if limit.above_dew_point is not None:
        broken |= air.on - _dew_points(air) < limit.above_dew_point - HAIR
    if limit.wood_driest is not None:
        broken |= wood_moisture(air.temperature, air.dry) < limit.wood_driest - HAIR
    if limit.wood_dampest is not None:
        broken |= wood_moisture(air.temperature, air.humidity) > limit.wood_dampest + HAIR
    return broken


def touches(limit: Limit, air: RoomAir | WetAir, starts: Minutes, ends: Minutes) -> Bools:
    """bool[m]: does [start, end) touch an hour that breaks a limit? An empty stretch touches the hour it stands in.

    Hours outside the air are as its nearest hour.
    """
    broken = broken_hours(limit, air)
    until = np.concatenate(([0], np.cumsum(broken)))
    last, first = len(broken) - 1, air.first
    first_hours = np.clip((starts - first) // HOUR, 0, last)
    last_hours = np.clip((np.maximum(ends - 1, starts) - first) // HOUR, 0, last)
    met: Bools = until[last_hours + 1] > until[first_hours]
    return met


@lru_cache(maxsize=64)
def _dew_points(air: RoomAir) -> NDArray[np.float64]:
    return dew_point(air.temperature, air.humidity)
