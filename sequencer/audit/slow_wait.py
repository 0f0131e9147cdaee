"""A wait worked out hour by hour in plain arithmetic."""

from __future__ import annotations

from functools import lru_cache
from math import ceil, inf

from sequencer.air.hourly import HourAir
from sequencer.air.moist import dew_point
from sequencer.air.wood import wood_moisture
from sequencer.audit.slow_damp import Hours
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


def ready(wait: Wait, air: Hours, end: Minute) -> Minute:
    """The first whole minute at which a layer is ready, from its end of work; far beyond any plan if it never is."""
    now: Minute | float = end
    for stage in (wait, *wait.then):
        now = _over(stage, air, now)
    read = wait.measured
    if read is not None and end <= read.at:
        now = read.at if read.ready else max(now, read.at)
    floor = end + ceil((wait.floor_hours or 0.0) * HOUR - HAIR)
    return NEVER if now == inf else max(int(now), floor)


def _over(stage: Wait, air: Hours, begin: Minute | float) -> Minute | float:
    """The first whole minute at which one stage is over; infinite if it never is."""
    if begin == inf:
        return inf
    missing = stage.hours * depth_factor(stage) * HOUR
    now = float(begin)
    for _ in range(LOOK_AHEAD):
        hour = air.at(int(now))
        warmth = hour.temperature if LAWS[stage.law].family.humidity_counts else hour.surface
        pace = pace_of(stage.law, warmth, hour.humidity, stage.at_temperature, stage.at_humidity)
        if any(breaks(limit, hour) for limit in stage.limits if limit.kind == "stops"):
            pace = 0.0
        left = (int(now) // HOUR + 1) * HOUR - now
        if pace * left >= missing - HAIR:
            return ceil(now + (missing / pace if pace else 0.0) - HAIR)
        missing -= pace * left
        now += left
    return inf


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
        or (limit.driest is not None and humidity < limit.driest - hair)
        or (limit.dampest is not None and humidity > limit.dampest + hair)
        or (
            limit.above_dew_point is not None
            and hour.surface - float(dew_point(temperature, humidity)) < limit.above_dew_point - hair
        )
        or (limit.wood_driest is not None and wood_moisture(temperature, humidity) < limit.wood_driest - hair)
        or (limit.wood_dampest is not None and wood_moisture(temperature, humidity) > limit.wood_dampest + hair)
    )
