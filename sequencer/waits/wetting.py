"""Drying layers wet their own room: the air that stands in it while they dry.

The room is one well-mixed space in which, hour by hour, as much water leaves with the air as the layers give off. A
layer gives off its water evenly over its wait, at the pace of the wait's law in the air as it then is; where that law
is not one of drying, as a wet surface.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from sequencer.air.hourly import RoomAir
from sequencer.air.layers import HOW
from sequencer.air.moist import Floats, humidity_ratio, saturation_pressure
from sequencer.terms.job import Room, Step
from sequencer.terms.laws import WET_SURFACE
from sequencer.terms.minute import HOUR, Span
from sequencer.terms.wait import Wait
from sequencer.waits.families.drying import VapourDeficit
from sequencer.waits.limits import felt_by
from sequencer.waits.rate import depth_factor, rate
from sequencer.waits.table import LAWS

AIR_DENSITY = 1.2
"""Dry air at 20 C and sea level [kg/m3] (ASHRAE Fundamentals, standard air)."""
HALVINGS = 30
"""How often the range in which a humidity is sought is halved: far finer than any meter reads."""
TELLING = 0.005
"""By how much [0..1] layers must wet their air for it to be told: half of what a meter shows."""

_EVER: Span = (-(2**40), 2**40)


@dataclass(frozen=True)
class WetRoom:
    """A room that can be wetted: its volume [m3] and air changes [1/h] with air as it is said to be.

    `dryer` [kg/h]: what a dehumidifier takes out.
    """

    volume: float
    changes: float
    dryer: float = 0.0

    @property
    def exchange(self) -> float:
        """Dry air that comes and goes [kg/h]."""
        return self.changes * AIR_DENSITY * self.volume


@dataclass(frozen=True)
class Layer:
    """A layer's water [kg] and the wait over which it leaves, by a law of drying."""

    water: float
    dries: Wait


Layers = tuple[Layer, ...]
WhenLayers = tuple[tuple[Layer, Span], ...]


def wet_room(room: Room) -> WetRoom | None:
    """A room as its layers wet it; None if its size is unknown."""
    return None if room.volume is None else WetRoom(room.volume, room.air_changes, room.dryer)


def layer_of(step: Step) -> Layer | None:
    """The layer of a step that gives off water; None if it has none, or if it is taken to be dry at once."""
    wait = step.wait_for(step.dries_for) if step.dries_for is not None else None
    return None if wait is None or not step.water or not wait.hours else Layer(step.water, drying(wait))


def feels_humidity(wait: Wait) -> bool:
    """True if the air's humidity decides when a wait is over, or what spoils it."""
    stages = (wait, *wait.then)
    by_law = any(LAWS[stage.law].family.humidity_counts for stage in stages)
    return by_law or any(felt_by(limit) for stage in stages for limit in stage.limits)


def drying(wait: Wait) -> Wait:
    """How the water of a layer leaves while a wait runs: hours for its own depth, by a law of drying."""
    law = wait.law if isinstance(LAWS[wait.law].family, VapourDeficit) else WET_SURFACE
    return replace(wait, law=law, hours=wait.hours * depth_factor(wait), thickness=None)


def wetted(air: RoomAir, room: WetRoom, always: Layers, at_times: WhenLayers = ()) -> RoomAir:
    """A room's air, never drier than its layers make it: some in every hour, some in the hours a span touches.

    In every hour as if the room had settled. Hours read by a meter stay as they are.
    """
    humidity = _always(air, room, always) if always else air.humidity
    if at_times:
        hours = np.unique(np.concatenate([_hours(air, span) for _, span in at_times]))
        beside = _offers(air, [*((layer, _EVER) for layer in always), *at_times])
        there = {dryness: offer[hours] for dryness, offer in beside.items()}
        humidity = humidity.copy()
        humidity[hours] = _settled(air.temperature[hours], air.humidity[hours], room, there)
    read = air.how_humidity == HOW.index("reading")
    humidity = np.where(read, air.humidity, np.maximum(humidity, air.humidity))
    how = np.where(humidity > air.humidity + TELLING, HOW.index("wetted"), air.how_humidity)
    return replace(air, humidity=humidity, how_humidity=how.astype(np.int8), said=air.dry)


def leaving(air: RoomAir, at_times: WhenLayers, humidity: float) -> Floats:
    """Water that layers give off in each hour of the air [kg/h], float64[n], if a humidity [0..1] stood in it."""
    offers = _offers(air, at_times)
    total: Floats = sum((offer * (1.0 - humidity) ** dryness for dryness, offer in offers.items()), np.zeros(1))
    return total


def ratio(temperature: Floats, humidity: Floats) -> Floats:
    """Water [kg/kg dry air] in air of temperature [C] and humidity [0..1]."""
    return humidity_ratio(humidity * saturation_pressure(temperature))


@lru_cache(maxsize=256)
def _always(air: RoomAir, room: WetRoom, layers: Layers) -> Floats:
    """The settled humidity of every hour, hours alike worked out once; kept for the next layers beside these."""
    _, unlike, again = np.unique(air.temperature + 1j * air.humidity, return_index=True, return_inverse=True)
    few = replace(air, temperature=air.temperature[unlike], humidity=air.humidity[unlike])
    offers = _offers(few, [(layer, _EVER) for layer in layers])
    settled: Floats = _settled(few.temperature, few.humidity, room, offers)[again]
    return settled


def _hours(air: RoomAir, span: Span) -> NDArray[np.int64]:
    """The hours of the air that a span touches."""
    first, out = ((edge - air.first) // HOUR for edge in (span[0], span[1] + HOUR - 1))
    return np.arange(max(first, 0), min(out, len(air.humidity)), dtype=np.int64)


def _offers(air: RoomAir, layers: Sequence[tuple[Layer, Span]]) -> dict[float, Floats]:
    """Water given off into bone-dry air of each hour's temperature [kg/h], float64[n], by what power of dryness."""
    found: dict[float, Floats] = {}
    for layer, span in layers:
        family, dries = LAWS[layer.dries.law].family, layer.dries
        assert isinstance(family, VapourDeficit), f"{dries.law} is no law of drying"
        hours = _hours(air, span)
        warmth = air.temperature[hours]
        pace = rate(dries.law, warmth, np.zeros_like(warmth), dries.at_temperature, dries.at_humidity)
        offer = found.setdefault(family.dryness, np.zeros_like(air.humidity))
        offer[hours] += layer.water / dries.hours * pace
    return found


def _settled(temperature: Floats, humidity: Floats, room: WetRoom, offers: dict[float, Floats]) -> Floats:
    """The humidity [0..1] at which as much water leaves as is given off."""
    saturated = saturation_pressure(temperature)
    low = np.minimum(humidity, 1.0)
    carried, high = humidity_ratio(low * saturated), np.ones_like(low)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        off = sum(offer * (1.0 - middle) ** dryness for dryness, offer in offers.items())
        enough = room.exchange * (humidity_ratio(middle * saturated) - carried) + room.dryer >= off
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return high
