"""A room that its own layers make too damp: for how long, and what would help."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.terms.minute import HOUR
from sequencer.waits.wetting import AIR_DENSITY, WetRoom, WhenLayers, leaving, ratio, wetted

DAMP = 0.85
"""Humidity [0..1] above which a room is said to be too damp: common practice, no source."""
_HOURS_A_DAY = 24.0
_FANS = 10
"""Fans are told in whole tens of m3/h."""


@dataclass(frozen=True)
class Damp:
    """Hours in which the room stands above a humidity `limit` [0..1], and what would hold it there.

    `layers`: places of those that are there in these hours. `dampest` [0..1]. `fan` [m3/h] of air as it is said to be,
    None if that is too damp itself. `litres` a day to dry.
    """

    layers: tuple[int, ...]
    limit: float
    hours: int
    dampest: float
    fan: float | None
    litres: float


def damp(air: RoomAir, room: WetRoom, at_times: WhenLayers, limit: float = DAMP) -> Damp | None:
    """How damp layers make their room that dry in these spans; None if they never make it damper than `limit`."""
    met = wetted(air, room, (), at_times)
    (above,) = np.nonzero((met.humidity > limit) & (met.humidity > air.humidity))
    if not len(above):
        return None
    off = leaving(air, at_times, limit)[above]
    said, held = air.humidity[above], np.full(len(above), limit)
    room_left = ratio(air.temperature[above], held) - ratio(air.temperature[above], np.minimum(said, 1.0))
    dryer = np.maximum(off - room.exchange * room_left, 0.0)
    left = np.maximum(off - room.dryer, 0.0)
    fan = float(np.max(left / (AIR_DENSITY * room_left))) if bool(np.all(room_left > 0.0)) else None
    moments = air.first + HOUR * above
    there = [bool(np.any((moments + HOUR > start) & (moments < end))) for _, (start, end) in at_times]
    return Damp(
        layers=tuple(number for number, here in enumerate(there) if here),
        limit=limit,
        hours=len(above),
        dampest=float(met.humidity[above].max()),
        fan=fan,
        litres=_HOURS_A_DAY * float(np.max(dryer)),
    )


def damp_words(found: Damp, water: float, volume: float) -> str:
    """What a damp room says, without a full stop; `water` [kg] of its layers, `volume` [m3]."""
    helps = [f"a dehumidifier of {found.litres:.1f} litres a day"]
    if found.fan is not None:
        helps.insert(0, f"a window or fan that brings {_round_up(found.fan)} m3/h in these hours")
    return (
        f"{water:.1f} kg of water dry into {volume:.0f} m3: the room stands above {100 * found.limit:.0f} % "
        f"for {found.hours} h, {100 * found.dampest:.0f} % at the worst; {' or '.join(helps)} would hold it there"
    )


def _round_up(flow: float) -> int:
    return int(-(-flow // _FANS) * _FANS)
