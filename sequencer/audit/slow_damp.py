"""The air that drying layers make in a room, gone through hour by hour in plain arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from sequencer.air.hourly import HourAir, RoomAir, air_on
from sequencer.air.moist import humidity_ratio, saturation_pressure
from sequencer.audit.slow_wait import Going
from sequencer.terms.job import Step
from sequencer.terms.minute import HOUR, Minute
from sequencer.waits.rate import rate
from sequencer.waits.wetting import AIR_DENSITY, HALVINGS, Layer, WetRoom


@dataclass
class Wet:
    """A layer that gives off water: whose it is, when its work ends, and how far it is."""

    step: Step
    layer: Layer
    end: Minute
    going: Going


class DampRoom:
    """A room whose layers dry together: in every hour the water of all that are not ready yet leaves with its air."""

    def __init__(self, air: RoomAir, room: WetRoom, layers: Sequence[Wet]) -> None:
        self._air, self._room, self._layers = air, room, layers
        self._there: list[tuple[Wet, ...]] = []
        self._first = min((wet.end for wet in layers), default=0) // HOUR

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""
        return self._air.end

    def at(self, minute: Minute, surfaces: Sequence[str], without: str | None = None) -> HourAir:
        """The air at a minute on such surfaces, all layers counted but that of one step."""
        there = [wet for wet in self._wet_in(minute // HOUR) if wet.step.id != without]
        return self._damp(minute, surfaces, there)

    def _wet_in(self, hour: int) -> tuple[Wet, ...]:
        """The layers that give off water in an hour; every hour before it is gone through first."""
        if hour < self._first:
            return ()
        while len(self._there) <= hour - self._first:
            self._go_through(self._first + len(self._there))
        return self._there[hour - self._first]

    def _go_through(self, hour: int) -> None:
        start, out = HOUR * hour, HOUR * (hour + 1)
        there = tuple(wet for wet in self._layers if wet.end < out and not _ready_by(wet, start))
        for wet in there:
            names = [surface.name for surface in wet.step.surfaces]
            wet.going.through(self._damp(start, names, there), out)
        self._there.append(there)

    def _damp(self, minute: Minute, surfaces: Sequence[str], there: Sequence[Wet]) -> HourAir:
        here = air_on(self._air, surfaces).at(minute)
        if not there or here.how_humidity == "reading":
            return here
        layers = tuple(wet.layer for wet in there)
        humidity = settled(layers, self._room, here.temperature, min(here.humidity, 1.0))
        return replace(here, humidity=max(humidity, here.humidity), said=here.humidity)


class DampAir:
    """A damp room as one step has it, with or without its own layer."""

    def __init__(self, room: DampRoom, step: Step, own: bool) -> None:
        self._room, self._without = room, None if own else step.id
        self._surfaces = [surface.name for surface in step.surfaces]
        self._known: dict[int, HourAir] = {}

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""
        return self._room.end

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""
        hour = minute // HOUR
        if hour not in self._known:
            self._known[hour] = self._room.at(minute, self._surfaces, self._without)
        return self._known[hour]


def _ready_by(wet: Wet, moment: Minute) -> bool:
    return wet.going.ready is not None and wet.going.ready <= moment


@lru_cache(maxsize=8192)
def settled(layers: tuple[Layer, ...], room: WetRoom, temperature: float, humidity: float) -> float:
    """The humidity [0..1] at which as much water leaves as the layers give off; kept, since many hours are alike."""
    saturated = saturation_pressure(temperature)
    comes_in = humidity_ratio(humidity * saturated)
    low, high = humidity, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        leaves = room.changes * AIR_DENSITY * room.volume * (humidity_ratio(middle * saturated) - comes_in)
        if leaves + room.dryer >= sum(_given_off(layer, temperature, middle) for layer in layers):
            high = middle
        else:
            low = middle
    return high


def _given_off(layer: Layer, temperature: float, humidity: float) -> float:
    dries = layer.dries
    pace = rate(dries.law, temperature, humidity, dries.at_temperature, dries.at_humidity)
    return layer.water / dries.hours * pace
