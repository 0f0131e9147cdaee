"""The air a wet layer makes for itself, hour by hour in plain arithmetic."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import Protocol

from sequencer.air.hourly import HourAir, RoomAir
from sequencer.air.moist import humidity_ratio, saturation_pressure
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.rate import rate
from sequencer.waits.wetting import AIR_DENSITY, HALVINGS, WetRoom, drying


class Hours(Protocol):
    """Air that can be asked for at a minute."""

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""


class WetAir:
    """A room's air as a drying layer wets it; hours read by a meter stay as they are."""

    def __init__(self, wait: Wait, air: RoomAir, room: WetRoom) -> None:
        self._drying, self._air, self._room = drying(wait), air, room
        self._known: dict[int, HourAir] = {}

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""
        return self._air.end

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""
        hour = minute // HOUR
        if hour not in self._known:
            here = self._air.at(minute)
            damp = here.humidity
            if here.how_humidity != "reading":
                damp = max(damp, settled(self._drying, self._room, here.temperature, min(damp, 1.0)))
            self._known[hour] = replace(here, humidity=damp)
        return self._known[hour]


@lru_cache(maxsize=8192)
def settled(wait: Wait, room: WetRoom, temperature: float, humidity: float) -> float:
    """The humidity [0..1] at which as much water leaves as the layer gives off; kept, since many hours are alike."""
    saturated = saturation_pressure(temperature)
    comes_in = humidity_ratio(humidity * saturated)
    each_hour = room.water / wait.hours
    low, high = humidity, 1.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        leaves = room.changes * AIR_DENSITY * room.volume * (humidity_ratio(middle * saturated) - comes_in)
        pace = rate(wait.law, temperature, middle, wait.at_temperature, wait.at_humidity)
        if leaves + room.dryer >= each_hour * pace:
            high = middle
        else:
            low = middle
    return high
