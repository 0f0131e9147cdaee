"""One figure of a room's air, temperature or humidity, laid out hour by hour from sources of different worth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sequencer.terms.air import AirReading, AirStatement
from sequencer.terms.minute import HOUR, Minute

HOW: tuple[str, ...] = (
    "assumed",
    "carried forward",
    "outdoors",
    "in words",
    "stated",
    "heated",
    "dried",
    "wetted",
    "reading",
)
"""Where an hour's figure comes from, the poorest source first; the codes count in this order."""

READING_STANDS = 12 * HOUR
"""How far before and after itself a reading stands [min]: an assumption, no source."""

Floats = NDArray[np.float64]
Codes = NDArray[np.int8]
Pairs = Sequence[tuple[AirStatement, float]]


@dataclass(frozen=True, eq=False)
class Figure:
    """A figure's hours from `first` on: `values` float64[n] and `codes` int8[n], places in HOW. Laid over in place."""

    first: Minute
    values: Floats
    codes: Codes

    @property
    def middles(self) -> NDArray[np.int64]:
        """int64[n]: the middle minute of each hour."""
        return self.first + HOUR * np.arange(len(self.values), dtype=np.int64) + HOUR // 2


def assumed(first: Minute, hours: int, figure: float) -> Figure:
    """So many hours of an assumption."""
    return Figure(first, np.full(hours, figure), np.full(hours, HOW.index("assumed"), np.int8))


def lay_periods(figure: Figure, periods: Pairs) -> None:
    """Lay periods over what is there, better sources over poorer ones, later ones over earlier ones of a kind.

    A period counts in the hours whose middle it covers.
    """
    for period, value in sorted(periods, key=lambda pair: HOW.index(pair[0].how)):
        covered = slice(_hour_from(period.start - figure.first), _hour_from(period.end - figure.first))
        figure.values[covered] = value
        figure.codes[covered] = HOW.index(period.how)


def lay_heaters(figure: Figure, periods: Pairs) -> None:
    """Lay heated periods over a temperature, later ones over earlier ones; none cools what was said of the room."""
    target = _alone(figure, periods)
    target[_said(figure) & (figure.values > target)] = np.nan
    lay_hours(figure, target, "heated")


def lay_dryers(figure: Figure, periods: Pairs) -> None:
    """Lay dried periods over a humidity, later ones over earlier ones; none wets what was said of the room."""
    target = _alone(figure, periods)
    target[_said(figure) & (figure.values < target)] = np.nan
    lay_hours(figure, target, "dried")


def _said(figure: Figure) -> NDArray[np.bool_]:
    return np.asarray(figure.codes >= HOW.index("outdoors"))


def _alone(figure: Figure, periods: Pairs) -> Floats:
    """float64[n]: the periods' own figures, nan where there is none."""
    alone = Figure(figure.first, np.full_like(figure.values, np.nan), np.zeros_like(figure.codes))
    lay_periods(alone, periods)
    return alone.values


def lay_hours(figure: Figure, values: Floats, how: str) -> None:
    """Lay an hour's own value over each hour that has one (nan: none)."""
    known = ~np.isnan(values)
    figure.values[known] = values[known]
    figure.codes[known] = HOW.index(how)


class Readings:
    """A logger's figures, averaged by clock hour."""

    def __init__(self, readings: Sequence[tuple[AirReading, float]]) -> None:
        at = np.array([reading.at for reading, _ in readings], np.int64)
        figures = np.array([figure for _, figure in readings], np.float64)
        hours, members = np.unique(at // HOUR, return_inverse=True)
        self.at = hours * HOUR + HOUR // 2
        self.means = np.bincount(members, figures, len(hours)) / np.bincount(members, minlength=len(hours))

    def lay_forward(self, figure: Figure) -> None:
        """Carry the newest reading before each hour forward to it."""
        newest = np.searchsorted(self.at, figure.middles, side="right") - 1
        lay_hours(figure, self._at(newest, newest >= 0), "carried forward")

    def lay(self, figure: Figure) -> None:
        """Let each reading stand around itself; of two the nearer one, of two equally near the earlier."""
        if not len(self.at):
            return
        middles = figure.middles
        after = np.clip(np.searchsorted(self.at, middles), 0, len(self.at) - 1)
        before = np.maximum(after - 1, 0)
        nearest = np.where(middles - self.at[before] <= self.at[after] - middles, before, after)
        lay_hours(figure, self._at(nearest, np.abs(self.at[nearest] - middles) <= READING_STANDS), "reading")

    def _at(self, places: NDArray[np.int64], wanted: NDArray[np.bool_]) -> Floats:
        values = np.full(len(places), np.nan)
        values[wanted] = self.means[places[wanted]]
        return values


def _hour_from(minute: int) -> int:
    """The first hour whose middle is not before a minute counted from the first hour; never below 0."""
    return max(0, -((HOUR // 2 - minute) // HOUR))
