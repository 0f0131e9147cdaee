"""A room's air hour by hour: from everything that is said of it, the best source for each hour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.terms.air import AirReading, AirSaid, AirStatement
from sequencer.terms.minute import HOUR, Minute

HOW: tuple[str, ...] = ("assumed", "carried forward", "in words", "stated", "heated", "reading")
"""Where an hour's figure comes from, the poorest source first; RoomAir's codes count in this order."""

ASSUMED_TEMPERATURE = 18.0
"""What a room is taken to be where nothing is known [C]: an assumption, no source."""
ASSUMED_HUMIDITY = 0.60
"""The same for humidity [0..1]: an assumption, no source."""
READING_STANDS = 12 * HOUR
"""How far before and after itself a reading stands [min]: an assumption, no source."""


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
    period, else a stated one, else one in words, else the newest reading carried forward, else an assumption. Several
    readings in an hour are averaged; among periods of a kind the later one in the files wins. A period counts in the
    hours whose middle it covers. ValueError if end is not after start.
    """
    if end <= start:
        raise ValueError("air needs at least a minute")
    first = start // HOUR * HOUR
    hours = -((first - end) // HOUR)
    temperature, how_temperature = _laid_out(
        first,
        hours,
        [(period, period.temperature) for period in said.statements if period.temperature is not None],
        [(reading, reading.temperature) for reading in said.readings if reading.temperature is not None],
        ASSUMED_TEMPERATURE,
    )
    humidity, how_humidity = _laid_out(
        first,
        hours,
        [(period, period.humidity) for period in said.statements if period.humidity is not None],
        [(reading, reading.humidity) for reading in said.readings if reading.humidity is not None],
        ASSUMED_HUMIDITY,
    )
    return RoomAir(first, temperature, humidity, how_temperature, how_humidity)


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
    first: Minute,
    hours: int,
    periods: Sequence[tuple[AirStatement, float]],
    readings: Sequence[tuple[AirReading, float]],
    assumed: float,
) -> tuple[NDArray[np.float64], NDArray[np.int8]]:
    """One figure's values float64[hours] and codes int8[hours]: the poorest source first, better ones laid over it."""
    values = np.full(hours, assumed)
    codes = np.full(hours, HOW.index("assumed"), np.int8)
    _lay_periods(values, codes, first, [pair for pair in periods if pair[0].how == "assumed"])
    read_at, read = _hourly_means(readings)
    middles = first + HOUR * np.arange(hours, dtype=np.int64) + HOUR // 2
    if len(read):
        newest = np.searchsorted(read_at, middles, side="right") - 1
        known = newest >= 0
        values[known] = read[newest[known]]
        codes[known] = HOW.index("carried forward")
    better = [pair for pair in periods if pair[0].how != "assumed"]
    _lay_periods(values, codes, first, sorted(better, key=lambda pair: HOW.index(pair[0].how)))
    if len(read):
        nearest = _nearest(read_at, middles)
        stands = np.abs(read_at[nearest] - middles) <= READING_STANDS
        values[stands] = read[nearest[stands]]
        codes[stands] = HOW.index("reading")
    return values, codes


def _lay_periods(
    values: NDArray[np.float64],
    codes: NDArray[np.int8],
    first: Minute,
    periods: Sequence[tuple[AirStatement, float]],
) -> None:
    for period, figure in periods:
        covered = slice(_hour_from(period.start - first), _hour_from(period.end - first))
        values[covered] = figure
        codes[covered] = HOW.index(period.how)


def _hour_from(minute: int) -> int:
    """The first hour whose middle is not before a minute counted from the first hour; never below 0."""
    return max(0, -((HOUR // 2 - minute) // HOUR))


def _hourly_means(
    readings: Sequence[tuple[AirReading, float]],
) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Readings averaged by clock hour: the middle minute of each hour read, in order, and its mean."""
    at = np.array([reading.at for reading, _ in readings], np.int64)
    figures = np.array([figure for _, figure in readings], np.float64)
    hours, members = np.unique(at // HOUR, return_inverse=True)
    means = np.bincount(members, figures, len(hours)) / np.bincount(members, minlength=len(hours))
    return hours * HOUR + HOUR // 2, means


def _nearest(sorted_at: NDArray[np.int64], wanted: NDArray[np.int64]) -> NDArray[np.int64]:
    """For each wanted minute the place of the nearest one in a sorted list; the earlier of two equally near."""
    after = np.clip(np.searchsorted(sorted_at, wanted), 0, len(sorted_at) - 1)
    before = np.maximum(after - 1, 0)
    return np.where(wanted - sorted_at[before] <= sorted_at[after] - wanted, before, after)
