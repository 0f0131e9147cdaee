"""What air forbids: the hours that break a limit, and the layers they would spoil."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sequencer.air.alike import alike
from sequencer.air.hourly import RoomAir
from sequencer.air.moist import dew_point
from sequencer.air.wood import wood_moisture
from sequencer.terms.minute import HOUR, Minute
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
    return BrokenHours.of(limit, air).touched(starts, ends)


class BrokenHours(NamedTuple):
    """The places of the hours that break a limit, int32[k], among so many `hours` from `first` on."""

    first: Minute
    hours: int
    places: NDArray[np.int32]

    @classmethod
    def of(cls, limit: Limit, air: RoomAir | WetAir) -> BrokenHours:
        """Of a limit in some air."""
        broken = broken_hours(limit, air)
        return cls(air.first, len(broken), np.flatnonzero(broken).astype(np.int32))

    def touched(self, starts: Minutes, ends: Minutes) -> Bools:
        """bool[m]: as of `touches`."""
        last = self.hours - 1
        first_hours = np.clip((starts - self.first) // HOUR, 0, last)
        last_hours = np.clip((np.maximum(ends - 1, starts) - self.first) // HOUR, 0, last)
        return np.asarray(self.places.searchsorted(last_hours, side="right") > self.places.searchsorted(first_hours))


@lru_cache(maxsize=64)
def _dew_points(air: RoomAir) -> NDArray[np.float64]:
    few, again = alike((air.temperature, air.humidity))
    return dew_point(air.temperature[few], air.humidity[few])[again]
