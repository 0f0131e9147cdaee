"""A wait worked out hour by hour in plain arithmetic."""

from __future__ import annotations

from math import ceil, inf

from sequencer.air.hourly import RoomAir
from sequencer.air.moist import dew_point
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.rate import depth_factor, rate

HAIR = 1e-6
"""Minutes of rounding a sum of hours may carry; far under the minute that plans are made in."""

NEVER: Minute = 2**40
"""A minute beyond every calendar."""

LOOK_AHEAD = 2 * 366 * 24
"""Hours after which a layer that is still not ready counts as never ready."""


def ready(wait: Wait, air: RoomAir, end: Minute) -> Minute:
    """The first whole minute at which a layer is ready, from its end of work; far beyond any plan if it never is."""
    missing = wait.hours * depth_factor(wait) * HOUR
    now = float(end)
    for _ in range(LOOK_AHEAD):
        hour = air.at(int(now))
        pace = rate(wait.law, hour.temperature, hour.humidity, wait.at_temperature, wait.at_humidity)
        if any(breaks(limit, hour.temperature, hour.humidity) for limit in wait.limits if limit.kind == "stops"):
            pace = 0.0
        left = (int(now) // HOUR + 1) * HOUR - now
        if pace * left >= missing - HAIR:
            now += missing / pace if pace else 0.0
            break
        missing -= pace * left
        now += left
    else:
        now = inf
    floor = end + ceil((wait.floor_hours or 0.0) * HOUR - HAIR)
    return NEVER if now == inf else max(ceil(now - HAIR), floor)


def breaks(limit: Limit, temperature: float, humidity: float) -> bool:
    """True if an hour's air breaks a limit."""
    hair = 1e-9
    return (
        (limit.coldest is not None and temperature < limit.coldest - hair)
        or (limit.hottest is not None and temperature > limit.hottest + hair)
        or (limit.driest is not None and humidity < limit.driest - hair)
        or (limit.dampest is not None and humidity > limit.dampest + hair)
        or (
            limit.above_dew_point is not None
            and temperature - float(dew_point(temperature, humidity)) < limit.above_dew_point - hair
        )
    )
