"""Progress of a law through a room's air, summed once and searched for every start.

Counted in whole parts of a reference minute, so that sums are exact, the same on every machine, and never fall.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from sequencer.air.hourly import RoomAir
from sequencer.terms.laws import TAKING_WATER
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.limits import broken_hours
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

Minutes = NDArray[np.int64]
Bools = NDArray[np.bool_]

PARTS = 10**11
"""Parts of a reference minute: fine enough that a year's rounding stays under a hundredth of a minute."""
NEVER: Minute = 2**40
"""A minute beyond every calendar: what is never ready."""

_NOWHERE = Place("")


@dataclass(frozen=True, eq=False)
class Progress:
    """`pace` [parts/min]: int64[n], each hour's. `sums` [parts]: int64[n + 1], what is done at each hour's start."""

    first: Minute
    pace: Minutes
    sums: Minutes

    def at(self, minutes: Minutes) -> Minutes:
        """Progress [parts] from the first hour to each minute; outside the hours the nearest pace goes on."""
        since = minutes - self.first
        hours = np.clip(since // HOUR, 0, len(self.pace) - 1)
        parts: Minutes = self.sums[hours] + self.pace[hours] * (since - hours * HOUR)
        return parts

    def reached(self, parts: Minutes) -> Minutes:
        """The first whole minute at which progress has come to each number of parts; NEVER where it does not."""
        hours = np.clip(np.searchsorted(self.sums, parts, side="left") - 1, 0, len(self.pace) - 1)
        missing = parts - self.sums[hours]
        minutes = self.first + hours * HOUR - (-missing // self._divisors[hours])
        if self.pace[-1] == 0:
            minutes[missing > self._divisors[hours] * HOUR] = NEVER
        return np.minimum(minutes, NEVER)

    @cached_property
    def _divisors(self) -> Minutes:
        """The pace, but 1 where progress stands still: only the last hour is ever asked for such a pace."""
        return np.maximum(self.pace, 1)


def progress_of(wait: Wait, air: RoomAir) -> Progress:
    """A wait's progress through a room's air; kept for the next wait of the same law, reference and stops.

    Layers that take water out of the air are not taken to be helped by what wet layers give off.
    """
    return _progress(wait.law, wait.at_temperature, wait.at_humidity, _stops(wait.limits), air)


def _stops(limits: Iterable[Limit]) -> tuple[Limit, ...]:
    return tuple(replace(limit, place=_NOWHERE, source="") for limit in limits if limit.kind == "stops")


@lru_cache(maxsize=256)
def _progress(
    law: str, at_temperature: float | None, at_humidity: float | None, stops: tuple[Limit, ...], air: RoomAir
) -> Progress:
    warmth = air.temperature if LAWS[law].family.humidity_counts else air.on
    humidity = air.dry if law in TAKING_WATER else air.humidity
    pace = np.rint(rate(law, warmth, humidity, at_temperature, at_humidity) * PARTS).astype(np.int64)
    for limit in stops:
        pace[broken_hours(limit, air)] = 0
    sums = np.concatenate(([0], np.cumsum(pace * HOUR)))
    return Progress(air.first, pace, sums)
