"""Progress of a law through a room's air, summed once and searched for every start.

Counted in whole parts of a reference minute, so that sums are exact, the same on every machine, and never fall.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from sequencer.air.alike import alike
from sequencer.air.hourly import RoomAir
from sequencer.terms.laws import TAKING_WATER
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.limits import broken_hours
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS
from sequencer.waits.wetting import WetAir

Air: TypeAlias = RoomAir | WetAir
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
        hours = np.minimum(np.maximum(since // HOUR, 0), len(self.pace) - 1)
        parts: Minutes = self.sums[hours] + self.pace[hours] * (since - hours * HOUR)
        return parts

    def reached(self, parts: Minutes) -> Minutes:
        """The first whole minute at which progress has come to each number of parts; NEVER where it does not."""
        hours = np.minimum(np.maximum(self.sums.searchsorted(parts) - 1, 0), len(self.pace) - 1)
        missing = parts - self.sums[hours]
        minutes = self.first + hours * HOUR - (-missing // self._divisors[hours])
        if self.pace[-1] == 0:
            minutes[missing > self._divisors[hours] * HOUR] = NEVER
        return np.asarray(np.minimum(minutes, NEVER))

    @cached_property
    def _divisors(self) -> Minutes:
        """The pace, but 1 where progress stands still: only the last hour is ever asked for such a pace."""
        return np.maximum(self.pace, 1)


@dataclass(frozen=True, eq=False)
class PartlyOther:
    """Progress that is another one from the first hour of `part` to its last: where layers wet the room."""

    rest: Progress
    part: Progress

    def at(self, minutes: Minutes) -> Minutes:
        """As of Progress."""
        parts = self.rest.at(minutes)
        since, until = self._edges
        parts[minutes >= until] += self._gained
        inside = (minutes >= since) & (minutes < until)
        parts[inside] = self._before + self.part.at(minutes[inside])
        return parts

    def reached(self, parts: Minutes) -> Minutes:
        """As of Progress."""
        before = np.full_like(parts, self._since > 0) & (parts <= self._before)
        after = np.full_like(parts, self._until < len(self.rest.pace)) & (parts > self._before + self.part.sums[-1])
        minutes = self.rest.reached(np.where(after, parts - self._gained, parts))
        inside = ~(before | after).astype(np.bool_)
        minutes[inside] = self.part.reached(parts[inside] - self._before)
        return minutes

    @property
    def pace(self) -> Minutes:
        """As of Progress."""
        pace = self.rest.pace.copy()
        pace[self._since : self._until] = self.part.pace
        return pace

    @property
    def _since(self) -> int:
        return (self.part.first - self.rest.first) // HOUR

    @property
    def _until(self) -> int:
        return self._since + len(self.part.pace)

    @property
    def _edges(self) -> tuple[Minute, Minute]:
        """From when until when it is the part's; without end where the part has the first hour of all, or the last."""
        since, until = self.part.first, self.part.first + HOUR * len(self.part.pace)
        return since if self._since else -NEVER, until if self._until < len(self.rest.pace) else 2 * NEVER

    @cached_property
    def _before(self) -> int:
        """Progress [parts] before the part."""
        return int(self.rest.sums[self._since])

    @cached_property
    def _gained(self) -> int:
        """What progress [parts] is ahead after the part; below 0: behind."""
        return int(self.part.sums[-1] - self.rest.sums[self._until]) + self._before


AnyProgress: TypeAlias = Progress | PartlyOther


def progress_of(wait: Wait, air: Air) -> AnyProgress:
    """A wait's progress through a room's air; kept for the next wait of the same law, reference and stops.

    Layers that take water out of the air are not taken to be helped by what wet layers give off.
    """
    said = wait.law, wait.at_temperature, wait.at_humidity, _stops(wait.limits)
    if isinstance(air, RoomAir):
        return _kept(*said, air)
    rest, part = _kept(*said, air.rest), air.part
    return rest if part is None else PartlyOther(rest, _progress(*said, part))


def _stops(limits: Iterable[Limit]) -> tuple[Limit, ...]:
    return tuple(replace(limit, place=_NOWHERE, source="") for limit in limits if limit.kind == "stops")


@lru_cache(maxsize=256)
def _kept(
    law: str, at_temperature: float | None, at_humidity: float | None, stops: tuple[Limit, ...], air: RoomAir
) -> Progress:
    return _progress(law, at_temperature, at_humidity, stops, air)


def _progress(
    law: str, at_temperature: float | None, at_humidity: float | None, stops: tuple[Limit, ...], air: RoomAir
) -> Progress:
    warmth = air.temperature if LAWS[law].family.humidity_counts else air.on
    humidity = air.dry if law in TAKING_WATER else air.humidity
    few, again = alike((warmth, humidity))
    pace = np.rint(rate(law, warmth[few], humidity[few], at_temperature, at_humidity) * PARTS).astype(np.int64)[again]
    for limit in stops:
        pace[broken_hours(limit, air)] = 0
    sums = np.concatenate(([0], np.cumsum(pace * HOUR)))
    return Progress(air.first, pace, sums)
