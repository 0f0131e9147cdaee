"""A room's air hour by hour: from everything that is said of it, the best source for each hour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.air.layers import HOW, Figure, Readings, assumed, lay_hours, lay_periods
from sequencer.air.outdoors import OutdoorAir, brought_indoors, outdoor_air
from sequencer.terms.air import AirReading, AirSaid, AirStatement, Outdoors
from sequencer.terms.minute import HOUR, Minute

ASSUMED_TEMPERATURE = 18.0
"""What a room is taken to be where nothing is known [C]: an assumption, no source."""
ASSUMED_HUMIDITY = 0.60
"""The same for humidity [0..1]: an assumption, no source."""


@dataclass(frozen=True)
class HourAir:
    """The air of one hour: temperature [C], humidity [0..1], and how each is known (a word of HOW)."""

    temperature: float
    humidity: float
    how_temperature: str
    how_humidity: str


@dataclass(frozen=True, eq=False)
class RoomAir:
    """A room's air in n clock hours (UTC) from `first` on; constant within each.

    `temperature` [C] and `humidity` [0..1]: float64[n]. `how_temperature`, `how_humidity`: int8[n], places in HOW.
    Before the first hour the first hour's air stands, after the last hour the last hour's.
    """

    first: Minute
    temperature: NDArray[np.float64]
    humidity: NDArray[np.float64]
    how_temperature: NDArray[np.int8]
    how_humidity: NDArray[np.int8]

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
        )

    def at(self, minute: Minute) -> HourAir:
        """The air at a minute."""
        hour = self.hour(minute)
        return HourAir(
            float(self.temperature[hour]),
            float(self.humidity[hour]),
            HOW[int(self.how_temperature[hour])],
            HOW[int(self.how_humidity[hour])],
        )


def hourly_air(said: AirSaid, start: Minute, end: Minute) -> RoomAir:
    """The air of every clock hour touched by [start, end).

    For temperature and humidity separately, and for each hour: a reading that stands 12 h around itself, else a heated
    or dried period, else a stated one, else one in words, else outdoor air brought indoors, else the newest reading
    carried forward, else an assumption. Several readings in an hour are averaged; among periods of a kind the later one
    in the files wins. A period counts in the hours whose middle it covers. ValueError if end is not after start.
    """
    if end <= start:
        raise ValueError("air needs at least a minute")
    first = start // HOUR * HOUR
    hours = -((first - end) // HOUR)
    outside = None if said.outdoors is None else outdoor_air(said.outdoors, first, hours)
    temperature = _laid_out(
        assumed(first, hours, ASSUMED_TEMPERATURE),
        [(period, period.temperature) for period in said.statements if period.temperature is not None],
        [(reading, reading.temperature) for reading in said.readings if reading.temperature is not None],
        None if outside is None or said.outdoors is None else _indoors(outside, said.outdoors),
    )
    humidity = _laid_out(
        assumed(first, hours, ASSUMED_HUMIDITY),
        [(period, period.humidity) for period in said.statements if period.humidity is not None],
        [(reading, reading.humidity) for reading in said.readings if reading.humidity is not None],
        None
        if outside is None or said.outdoors is None
        else brought_indoors(outside, temperature.values, said.outdoors.gain, said.outdoors.altitude),
    )
    return RoomAir(first, temperature.values, humidity.values, temperature.codes, humidity.codes)


def assumptions(air: RoomAir) -> tuple[str, ...]:
    """What of the air rests on an assumption, in words; empty if nothing does."""
    total = len(air.temperature)
    sentences = []
    for what, how, figure in (
        ("temperature", air.how_temperature, f"{ASSUMED_TEMPERATURE:g} C"),
        ("humidity", air.how_humidity, f"{100 * ASSUMED_HUMIDITY:g} %"),
    ):
        assumed = int(np.count_nonzero(how == HOW.index("assumed")))
        if assumed:
            stretch = "throughout" if assumed == total else f"for {assumed} of {total} h"
            sentences.append(f"{what} assumed, {figure} {stretch}: no reading, and nothing said")
    return tuple(sentences)


def _laid_out(
    figure: Figure,
    periods: Sequence[tuple[AirStatement, float]],
    readings: Sequence[tuple[AirReading, float]],
    outdoors: NDArray[np.float64] | None,
) -> Figure:
    """A figure with every source laid over it, the poorest first."""
    logger = Readings(readings)
    lay_periods(figure, [pair for pair in periods if pair[0].how == "assumed"])
    logger.lay_forward(figure)
    if outdoors is not None:
        lay_hours(figure, outdoors, "outdoors")
    lay_periods(figure, [pair for pair in periods if pair[0].how != "assumed"])
    logger.lay(figure)
    return figure


def _indoors(outside: OutdoorAir, outdoors: Outdoors) -> NDArray[np.float64]:
    """The room's temperature [C] where only the outdoor air is known: heated, or as cold as outside."""
    warmth = outside.temperature
    return warmth if outdoors.heated_to is None else np.maximum(warmth, outdoors.heated_to)
