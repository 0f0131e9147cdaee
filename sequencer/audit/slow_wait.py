"""A wait worked out hour by hour in plain arithmetic."""

from __future__ import annotations

from functools import lru_cache
from math import ceil
from typing import Protocol

from sequencer.air.hourly import HourAir
from sequencer.air.moist import dew_point
from sequencer.air.wood import wood_moisture
from sequencer.terms.laws import TAKING_WATER
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.rate import depth_factor, rate
from sequencer.waits.table import LAWS

HAIR = 1e-6
"""Minutes of rounding a sum of hours may carry; far under the minute that plans are made in."""

NEVER: Minute = 2**40
"""A minute beyond every calendar."""

LOOK_AHEAD = 2 * 366 * 24
"""Hours after which a layer that is still not ready counts as never ready."""


class Hours(Protocol):
    """Air that can be asked for at a minute."""

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""


def ready(wait: Wait, air: Hours, end: Minute) -> Minute:
    """The first whole minute at which a layer is ready, from its end of work; far beyond any plan if it never is."""
    going = Going(wait, end)
    for _ in range(LOOK_AHEAD):
        if going.ready is not None:
            return going.ready
        going.through(air.at(int(going.now)), (int(going.now) // HOUR + 1) * HOUR)
    return NEVER


class Going:
    """A wait under way: where it is, and what its stage still misses."""

    def __init__(self, wait: Wait, end: Minute) -> None:
        self.wait, self.end = wait, end
        self.now = float(end)
        self._stages = [wait, *wait.then]
        self._missing = _minutes(wait)
        read = wait.measured
        self._read = read if read is not None and end <= read.at else None
        self._floor = end + ceil((wait.floor_hours or 0.0) * HOUR - HAIR)

    @property
    def ready(self) -> Minute | None:
        """The first whole minute at which the layer is ready; None while its law, or a reading, does not tell."""
        read = self._read
        if read is not None and read.ready:
            return max(read.at, self._floor)
        if self._stages:
            return None
        return max(int(self.now), self._floor, self._floor if read is None else read.at)

    def through(self, hour: HourAir, out: Minute) -> None:
        """Goes on in an hour's air, until its stages are over or the hour is out."""
        while self._stages and self.now < out:
            pace, left = _pace(self._stages[0], hour), out - self.now
            if pace * left < self._missing - HAIR:
                self._missing -= pace * left
                self.now += left
                return
            self.now = float(ceil(self.now + (self._missing / pace if pace else 0.0) - HAIR))
            self._stages.pop(0)
            self._missing = _minutes(self._stages[0]) if self._stages else 0.0


def _minutes(stage: Wait) -> float:
    """What a stage takes in its reference air [min]."""
    return stage.hours * depth_factor(stage) * HOUR


def _pace(stage: Wait, hour: HourAir) -> float:
    if any(breaks(limit, hour) for limit in stage.limits if limit.kind == "stops"):
        return 0.0
    warmth = hour.temperature if LAWS[stage.law].family.humidity_counts else hour.surface
    humidity = hour.dry if stage.law in TAKING_WATER else hour.humidity
    return pace_of(stage.law, warmth, humidity, stage.at_temperature, stage.at_humidity)


@lru_cache(maxsize=8192)
def pace_of(
    law: str, temperature: float, humidity: float, at_temperature: float | None, at_humidity: float | None
) -> float:
    """The rate of a law in an hour's air; kept, since many hours are alike."""
    return rate(law, temperature, humidity, at_temperature, at_humidity)


def breaks(limit: Limit, hour: HourAir) -> bool:
    """True if an hour's air breaks a limit."""
    temperature, humidity = hour.temperature, hour.humidity
    hair = 1e-9
    return (
        (limit.coldest is not None and temperature < limit.coldest - hair)
        or (limit.hottest is not None and temperature > limit.hottest + hair)
        or (limit.driest is not None and hour.dry < limit.driest - hair)
        or (limit.dampest is not None and humidity > limit.dampest + hair)
        or (
            limit.above_dew_point is not None
            and hour.surface - _dew_point(temperature, humidity) < limit.above_dew_point - hair
        )
        or (limit.wood_driest is not None and wood_moisture(temperature, hour.dry) < limit.wood_driest - hair)
        or (limit.wood_dampest is not None and wood_moisture(temperature, humidity) > limit.wood_dampest + hair)
    )


@lru_cache(maxsize=8192)
def _dew_point(temperature: float, humidity: float) -> float:
    return float(dew_point(temperature, humidity))
