"""A drying layer wets its own room: the air it then dries in, and what would help.

The room is one well-mixed space in which, hour by hour, as much water leaves with the air as the layer gives off. The
layer gives off its water evenly over its wait, at the pace of the wait's law in the air as it then is; where that law
is not one of drying, as a wet surface.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.air.layers import HOW
from sequencer.air.moist import Floats, humidity_ratio, saturation_pressure
from sequencer.terms.job import Room, Step
from sequencer.terms.laws import WET_SURFACE
from sequencer.terms.minute import Minute
from sequencer.terms.wait import Wait
from sequencer.waits.rate import depth_factor, rate
from sequencer.waits.table import LAWS

AIR_DENSITY = 1.2
"""Dry air at 20 C and sea level [kg/m3] (ASHRAE Fundamentals, standard air)."""
HALVINGS = 30
"""How often the range in which a humidity is sought is halved: far finer than any meter reads."""
TELLING = 0.005
"""By how much [0..1] a layer must wet its air for it to be told: half of what a meter shows."""
DAMP = 0.85
"""Humidity [0..1] above which a room is said to be too damp: common practice, no source."""
_HOURS_A_DAY = 24.0


@dataclass(frozen=True)
class WetRoom:
    """A layer's water [kg] in a room: its volume [m3] and air changes [1/h] with air as it is said to be.

    `dryer` [kg/h]: what a dehumidifier takes out.
    """

    water: float
    volume: float
    changes: float
    dryer: float = 0.0

    @property
    def exchange(self) -> float:
        """Dry air that comes and goes [kg/h]."""
        return self.changes * AIR_DENSITY * self.volume


@dataclass(frozen=True)
class Damp:
    """A wait in which the room stands above a humidity [0..1] for so many hours, and what would hold it there.

    `dampest` [0..1]. `fan` [m3/h] of air as it is said to be, None if that is too damp itself. `litres` a day to dry.
    """

    limit: float
    hours: int
    dampest: float
    fan: float | None
    litres: float


def wetted(wait: Wait, air: RoomAir, room: WetRoom) -> RoomAir:
    """The air a layer dries in: never drier than it makes the room itself. Hours read by a meter stay as they are.

    In every hour as if the layer had just been laid and the room had settled. The layer dries by its first stage.
    """
    _, hours, again = np.unique(air.temperature + 1j * air.humidity, return_index=True, return_inverse=True)
    unlike = replace(air, temperature=air.temperature[hours], humidity=air.humidity[hours])
    read = air.how_humidity == HOW.index("reading")
    humidity = np.where(read, air.humidity, np.maximum(_settled(wait, unlike, room)[again], air.humidity))
    how = np.where(humidity > air.humidity + TELLING, HOW.index("wetted"), air.how_humidity)
    return replace(air, humidity=humidity, how_humidity=how.astype(np.int8))


def _settled(wait: Wait, air: RoomAir, room: WetRoom) -> Floats:
    """The humidity [0..1] at which as much water leaves as the layer gives off, in the air of each hour."""
    carried = _carried(air)

    def surplus(humidity: Floats) -> Floats:
        leaves = room.exchange * (_ratio(air, humidity) - carried) + room.dryer
        return leaves - _given_off(wait, air, room, humidity)

    low, high = np.minimum(air.humidity, 1.0), np.ones_like(air.humidity)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        leaves = surplus(middle) >= 0.0
        low, high = np.where(leaves, low, middle), np.where(leaves, middle, high)
    return high


def damp(wait: Wait, air: RoomAir, room: WetRoom, limit: float, end: Minute, ready: Minute) -> Damp | None:
    """How damp a layer makes its room from end of work to ready, both in wetted air; None if never above `limit`."""
    met = wetted(wait, air, room).between(end, ready)
    above = met.humidity > limit
    if not above.any():
        return None
    said = air.between(end, ready)
    held = np.full_like(said.humidity, limit)
    given_off = _given_off(wait, said, room, held)[above]
    room_left = (_ratio(said, held) - _carried(said))[above]
    dryer = np.maximum(given_off - room.exchange * room_left, 0.0)
    left = np.maximum(given_off - room.dryer, 0.0)
    fan = float(np.max(left / (AIR_DENSITY * room_left))) if bool(np.all(room_left > 0.0)) else None
    return Damp(
        limit, int(np.count_nonzero(above)), float(met.humidity.max()), fan, _HOURS_A_DAY * float(np.max(dryer))
    )


def damp_words(found: Damp, room: WetRoom) -> str:
    """What a damp wait says, without a full stop."""
    helps = [f"a dehumidifier of {found.litres:.1f} litres a day"]
    if found.fan is not None:
        helps.insert(0, f"a window or fan that brings {_round_up(found.fan)} m3/h")
    return (
        f"{room.water:.1f} kg of water dry into {room.volume:.0f} m3: the room stands above {100 * found.limit:.0f} % "
        f"for {found.hours} h, {100 * found.dampest:.0f} % at the worst; {' or '.join(helps)} would hold it there"
    )


def _ratio(air: RoomAir, humidity: Floats) -> Floats:
    return humidity_ratio(humidity * saturation_pressure(air.temperature))


def _carried(air: RoomAir) -> Floats:
    """Water [kg/kg] of the air that comes in: the room's air as it is said to be."""
    return _ratio(air, np.minimum(air.humidity, 1.0))


def _given_off(wait: Wait, air: RoomAir, room: WetRoom, humidity: Floats) -> Floats:
    """Water the layer gives off [kg/h] in each hour's temperature at some humidity."""
    dries = drying(wait)
    pace = rate(dries.law, air.temperature, humidity, dries.at_temperature, dries.at_humidity)
    return room.water / dries.hours * pace


def _round_up(flow: float) -> int:
    return int(-(-flow // 10) * 10)


def wet_room(step: Step, wait: Wait, room: Room) -> WetRoom | None:
    """The room as a step's layer wets it while this wait runs; None if it does not, or its size is unknown.

    The water leaves over the wait it is said to leave over. Waits that are no longer see the same air; longer ones keep
    the room's, of them it is a part.
    """
    whole = step.wait_for(step.dries_for) if step.dries_for is not None else None
    if whole is None or room.volume is None or not step.water:
        return None
    if not LAWS[wait.law].family.humidity_counts or _hours(wait) > _hours(whole):
        return None
    return WetRoom(step.water, room.volume, room.air_changes, room.dryer)


def drying(wait: Wait) -> Wait:
    """How the water of a layer leaves while a wait runs: hours for its own depth, by a law of drying."""
    law = wait.law if LAWS[wait.law].family.humidity_counts else WET_SURFACE
    return replace(wait, law=law, hours=_hours(wait), thickness=None)


def _hours(wait: Wait) -> float:
    """Hours of a wait in its reference air [h]."""
    return wait.hours * depth_factor(wait)
