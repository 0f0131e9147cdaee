"""The air that drying layers make in a room, gone through hour by hour in plain arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from sequencer.air.hourly import HourAir, RoomAir
from sequencer.air.moist import humidity_ratio, saturation_pressure
from sequencer.audit.slow_wait import NEVER, Going
from sequencer.terms.minute import HOUR, Minute
from sequencer.waits.families.drying import VapourDeficit
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS
from sequencer.waits.wetting import AIR_DENSITY, HALVINGS, Layer, WetRoom


@dataclass(frozen=True, eq=False)
class Wet:
    """A layer that gives off water: the id of its step, the air on its surface without any, and how far it is."""

    step: str
    layer: Layer
    air: RoomAir
    going: Going


class DampRoom:
    """A room whose layers dry together: in every hour the water of all that are not ready yet leaves with its air."""

    def __init__(self, room: WetRoom, layers: Sequence[Wet]) -> None:
        self._room, self._left = room, list(layers)
        self._there: dict[int, tuple[Wet, ...]] = {}
        self._next = self._soonest()
        self._airs: dict[tuple[RoomAir, int, tuple[Wet, ...]], HourAir] = {}
        self._humidities: dict[tuple[tuple[Wet, ...], float, float], float] = {}

    def at(self, minute: Minute, plain: RoomAir, without: str | None = None) -> HourAir:
        """The air at a minute where it is `plain` as long as nothing dries, all layers counted but that of one step."""
        hour = minute // HOUR
        there = self._wet_in(hour)
        if without is not None:
            there = tuple(wet for wet in there if wet.step != without)
        return self._damp(hour, plain, there) if there else plain.at(minute)

    def _wet_in(self, hour: int) -> tuple[Wet, ...]:
        """The layers that give off water in an hour; every hour before it in which some do is gone through first."""
        while self._next <= hour:
            self._go_through(self._next)
        return self._there.get(hour, ())

    def _go_through(self, hour: int) -> None:
        start, out = HOUR * hour, HOUR * (hour + 1)
        self._left = [wet for wet in self._left if not _ready_by(wet, start)]
        there = tuple(wet for wet in self._left if wet.going.end < out)
        for wet in there:
            wet.going.through(self._damp(hour, wet.air, there), out)
        self._there[hour] = there
        self._next = hour + 1 if there else max(hour + 1, self._soonest())

    def _soonest(self) -> int:
        """The hour in which the first of the layers that are left is laid."""
        return min((wet.going.end for wet in self._left), default=NEVER) // HOUR

    def _damp(self, hour: int, plain: RoomAir, there: tuple[Wet, ...]) -> HourAir:
        key = (plain, hour, there)
        if key not in self._airs:
            here = plain.at(HOUR * hour)
            if here.how_humidity != "reading":
                humidity = self._humidity(there, here.temperature, min(here.humidity, 1.0))
                here = replace(here, humidity=max(humidity, here.humidity), said=here.humidity)
            self._airs[key] = here
        return self._airs[key]

    def _humidity(self, there: tuple[Wet, ...], temperature: float, humidity: float) -> float:
        """The humidity that layers bring a room to; many hours are alike."""
        key = (there, temperature, humidity)
        if key not in self._humidities:
            layers = tuple(wet.layer for wet in there)
            self._humidities[key] = settled(layers, self._room, temperature, humidity)
        return self._humidities[key]


class DampAir:
    """A damp room as one step has it, with or without its own layer."""

    def __init__(self, room: DampRoom, plain: RoomAir, without: str | None) -> None:
        self._room, self._plain, self._without = room, plain, without

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""
        return self._plain.end

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""
        return self._room.at(minute, self._plain, self._without)


def _ready_by(wet: Wet, moment: Minute) -> bool:
    return wet.going.ready is not None and wet.going.ready <= moment


@lru_cache(maxsize=8192)
def settled(layers: tuple[Layer, ...], room: WetRoom, temperature: float, humidity: float) -> float:
    """The humidity [0..1] at which as much water leaves as the layers give off; kept, since many rooms are alike."""
    saturated = float(saturation_pressure(temperature))
    comes_in = humidity_ratio(humidity * saturated)
    into_dry_air = [_into_dry_air(layer, temperature) for layer in layers]
    low, high = humidity, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        leaves = room.changes * AIR_DENSITY * room.volume * (humidity_ratio(middle * saturated) - comes_in)
        if leaves + room.dryer >= sum(water * (1.0 - middle) ** dryness for water, dryness in into_dry_air):
            high = middle
        else:
            low = middle
    return high


def _into_dry_air(layer: Layer, temperature: float) -> tuple[float, float]:
    """Water that a layer gives off into air without any [kg/h], and by what power of dryness it gives off less."""
    dries = layer.dries
    family = LAWS[dries.law].family
    assert isinstance(family, VapourDeficit), f"{dries.law} is no law of drying"
    pace = rate(dries.law, temperature, 0.0, dries.at_temperature, dries.at_humidity)
    return layer.water / dries.hours * pace, family.dryness
