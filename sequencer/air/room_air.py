"""A room's air hour by hour, as everything above asks it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from sequencer.air.layers import HOW
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.words import FLOORS


@dataclass(frozen=True)
class HourAir:
    """The air of one hour: temperature [C], humidity [0..1], how each is known (a word of HOW), floor or air [C].

    `said` [0..1]: its humidity without what wet layers give off, None if no layer wets it.
    """

    temperature: float
    humidity: float
    how_temperature: str
    how_humidity: str
    surface: float
    said: float | None = None

    @property
    def dry(self) -> float:
        """Its humidity without what wet layers give off [0..1]."""
        return self.humidity if self.said is None else self.said


@dataclass(frozen=True, eq=False)
class RoomAir:
    """A room's air in n clock hours (UTC) from `first` on; constant within each.

    `temperature` [C] and `humidity` [0..1]: float64[n]. `how_temperature`, `how_humidity`: int8[n], places in HOW.
    Before the first hour the first hour's air stands, after the last hour the last hour's. `floor` [C]: float64[n], how
    warm the floor is, None if it is as warm as the air. `surface` [C]: the same for what a step works on. `said`
    [0..1]: float64[n], its humidity without what wet layers give off, None if no layer wets it.
    """

    first: Minute
    temperature: NDArray[np.float64]
    humidity: NDArray[np.float64]
    how_temperature: NDArray[np.int8]
    how_humidity: NDArray[np.int8]
    floor: NDArray[np.float64] | None = None
    surface: NDArray[np.float64] | None = None
    said: NDArray[np.float64] | None = None

    @property
    def dry(self) -> NDArray[np.float64]:
        """Its humidity without what wet layers give off [0..1], float64[n]."""
        return self.humidity if self.said is None else self.said

    @property
    def on(self) -> NDArray[np.float64]:
        """How warm the surface is that is worked on [C], float64[n]."""
        return self.temperature if self.surface is None else self.surface

    @cached_property
    def on_floor(self) -> RoomAir:
        """The same air as a layer on the floor has it."""
        return self if self.floor is None else replace(self, surface=self.floor)

    @property
    def end(self) -> Minute:
        """The first minute after the last hour."""
        return self.first + HOUR * len(self.temperature)

    def hour(self, minute: Minute) -> int:
        """The place in the arrays of the hour that holds a minute, or of the nearest hour there is."""
        return min(max((minute - self.first) // HOUR, 0), len(self.temperature) - 1)

    def between(self, start: Minute, end: Minute) -> RoomAir:
        """The air of the hours from the one that holds `start` to the one before `end`, at least one hour."""
        hours = slice(self.hour(start), max(self.hour(end - 1), self.hour(start)) + 1)
        return RoomAir(
            self.first + HOUR * hours.start,
            self.temperature[hours],
            self.humidity[hours],
            self.how_temperature[hours],
            self.how_humidity[hours],
            None if self.floor is None else self.floor[hours],
            None if self.surface is None else self.surface[hours],
            None if self.said is None else self.said[hours],
        )

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""
        hour = self.hour(minute)
        return HourAir(
            float(self.temperature[hour]),
            float(self.humidity[hour]),
            HOW[int(self.how_temperature[hour])],
            HOW[int(self.how_humidity[hour])],
            float(self.on[hour]),
            None if self.said is None else float(self.said[hour]),
        )


def air_on(air: RoomAir, surfaces: Iterable[str]) -> RoomAir:
    """The air of a room for work on surfaces, by name: what lies on the floor is as warm as the floor."""
    return air.on_floor if any(surface in FLOORS for surface in surfaces) else air
