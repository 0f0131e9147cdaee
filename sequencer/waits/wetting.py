"""Drying layers wet their own room: the air that stands in it while they dry.

The room is one well-mixed space in which, hour by hour, as much water leaves with the air as the layers give off. A
layer gives off its water evenly over its wait, at the pace of the wait's law in the air as it then is; where that law
is not one of drying, as a wet surface.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from sequencer.air.hourly import RoomAir
from sequencer.air.layers import HOW
from sequencer.air.moist import Floats, humidity_ratio, saturation_pressure
from sequencer.terms.minute import HOUR, Minute
from sequencer.waits.layer import (
    AIR_DENSITY,
    Layer,
    Layers,
    WetRoom,
    WhenLayers,
    drying,
    layer_of,
    wet_room,
)
from sequencer.waits.settled import HALVINGS, Offers, hours_of, offers_of, settled, together

__all__ = [
    "AIR_DENSITY", "HALVINGS", "Layer", "Layers", "WetAir", "WetRoom", "WhenLayers", "drying", "layer_of", "leaving",
    "ratio", "wet_room", "wetted",
]  # fmt: skip

TELLING = 0.005
"""By how much [0..1] layers must wet their air for it to be told: half of what a meter shows."""

KEPT = 64
"""Airs that are remembered: a matter of speed alone."""


def wetted(air: RoomAir, room: WetRoom, always: Layers, at_times: WhenLayers = ()) -> RoomAir:
    """A room's air, never drier than its layers make it: some in every hour, some in the hours a span touches.

    In every hour as if the room had settled. Hours read by a meter stay as they are.
    """
    return WetAir(air, room, always, at_times).whole


class Together:
    """Airs that are worked out together: those of one room, of which one after the other is asked for."""

    def __init__(self) -> None:
        self.airs: list[WetAir] = []


@dataclass(frozen=True, eq=False)
class WetAir:
    """A room's air as layers wet it, worked out when it is asked for: the air of all hours takes much room.

    `said`: the air without them. `always`: layers that wet it in every hour, `at_times`: in the hours a span touches.
    """

    said: RoomAir
    room: WetRoom
    always: Layers
    at_times: WhenLayers = ()
    together: Together = field(default_factory=Together)

    def __post_init__(self) -> None:
        self.together.airs.append(self)

    @property
    def first(self) -> Minute:
        """The first minute of its first hour."""
        return self.said.first

    @property
    def rest(self) -> RoomAir:
        """The air as it is in the hours that no span touches; airs alike share it."""
        return _in_every_hour(self.said, self.room, self.always)

    @property
    def part(self) -> RoomAir | None:
        """The air from the first hour that a span touches to the last; None if none touches an hour."""
        return _parts(self.together)[self]

    @property
    def whole(self) -> RoomAir:
        """The air of all hours."""
        rest, part = self.rest, self.part
        if part is None:
            return rest
        first = (part.first - rest.first) // HOUR
        hours = slice(first, first + len(part.humidity))
        humidity, how = rest.humidity.copy(), rest.how_humidity.copy()
        humidity[hours], how[hours] = part.humidity, part.how_humidity
        return replace(rest, humidity=humidity, how_humidity=how)


def leaving(air: RoomAir, at_times: WhenLayers, humidity: float) -> Floats:
    """Water that layers give off in each hour of the air [kg/h], float64[n], if a humidity [0..1] stood in it."""
    offers = offers_of(air, [(layer, hours_of(air, span)) for layer, span in at_times], slice(0, len(air.humidity)))
    total: Floats = sum((offer * (1.0 - humidity) ** dryness for dryness, offer in offers.items()), np.zeros(1))
    return total


def ratio(temperature: Floats, humidity: Floats) -> Floats:
    """Water [kg/kg dry air] in air of temperature [C] and humidity [0..1]."""
    return humidity_ratio(humidity * saturation_pressure(temperature))


@lru_cache(maxsize=4 * KEPT)
def _in_every_hour(air: RoomAir, room: WetRoom, layers: Layers) -> RoomAir:
    if not layers:
        return replace(air, said=air.dry)
    offers = offers_of(air, [(layer, None) for layer in layers], slice(0, len(air.humidity)))
    return _damper(air, settled(air.temperature, air.humidity, room, offers))


@lru_cache(maxsize=KEPT)
def _parts(airs: Together) -> dict[WetAir, RoomAir | None]:
    """The parts of airs in which layers come and go."""
    found: dict[WetAir, RoomAir | None] = dict.fromkeys(airs.airs)
    parts = [part for wet in airs.airs if (part := _Part.of(wet)) is not None]
    if parts:
        there, room = [part.there for part in parts], parts[0].wet.room
        said = [(part.here.temperature[part.there], part.here.humidity[part.there]) for part in parts]
        temperature, humidity = (np.concatenate(figures) for figures in zip(*said, strict=True))
        damp = settled(temperature, humidity, room, together([part.offers for part in parts], there))
        ends = np.cumsum([len(warmth) for warmth, _ in said])
        found.update(
            {part.wet: part.with_humidity(each) for part, each in zip(parts, np.split(damp, ends[:-1]), strict=True)}
        )
    return found


@dataclass(frozen=True)
class _Part:
    """The hours from the first that a span touches to the last: the air `here` without layers, what these offer, and
    in which of the hours, bool[n]."""

    wet: WetAir
    here: RoomAir
    offers: Offers
    there: NDArray[np.bool_]

    @classmethod
    def of(cls, wet: WetAir) -> _Part | None:
        """None if no span touches an hour."""
        air = wet.said
        at_times = [(layer, hours_of(air, span)) for layer, span in wet.at_times]
        touched = [hours for _, hours in at_times if hours.start < hours.stop]
        if not touched:
            return None
        hours = slice(min(each.start for each in touched), max(each.stop for each in touched))
        there = np.zeros(hours.stop - hours.start, np.bool_)
        for each in touched:
            there[each.start - hours.start : each.stop - hours.start] = True
        offers = offers_of(air, [*((layer, None) for layer in wet.always), *at_times], hours)
        here = air.between(air.first + HOUR * hours.start, air.first + HOUR * hours.stop)
        return cls(wet, here, offers, there)

    def with_humidity(self, damp: Floats) -> RoomAir:
        """The air with the humidity that layers make in the hours where they are."""
        air = self.wet.rest.between(self.here.first, self.here.end)
        figures = self.here.humidity.copy()
        figures[self.there] = damp
        wetter = _damper(self.here, figures)
        humidity = np.where(self.there, wetter.humidity, air.humidity)
        how = np.where(self.there, wetter.how_humidity, air.how_humidity)
        return replace(wetter, humidity=humidity, how_humidity=how)


def _damper(air: RoomAir, humidity: Floats) -> RoomAir:
    """The air with a humidity that layers make, but for hours read by a meter."""
    read = air.how_humidity == HOW.index("reading")
    humidity = np.where(read, air.humidity, np.maximum(humidity, air.humidity))
    how = np.where(humidity > air.humidity + TELLING, HOW.index("wetted"), air.how_humidity)
    return replace(air, humidity=humidity, how_humidity=how.astype(np.int8), said=air.dry)
