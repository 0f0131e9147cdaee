"""A typical year of outdoor air from an EPW weather file.

The format: 8 head lines, the first of them LOCATION with time zone [h] and elevation [m] as its 9th and 10th entries;
then a line an hour, with month and day as 2nd and 3rd entries, dry bulb [C] the 7th and relative humidity [%] the 9th;
figures beyond all weather mean missing. Source: EnergyPlus auxiliary programs, EPW data dictionary (seen).
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from sequencer.files.text import read_text
from sequencer.terms.air import TypicalYear
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Fault, Faulty, Place

_HEAD_LINES = 8
_ZONE, _ELEVATION = 8, 9
_MONTH, _DAY, _DRY_BULB, _HUMIDITY = 1, 2, 6, 8
_HOURS = 8760
_FEBRUARY_29 = (2, 29)
_WARMEST, _COLDEST = 70.0, -70.0
_DAMPEST = 110.0
_LONGEST_GAP = 6
_MOST_FAULTS = 20
_WRITE = "take a whole EPW file of a typical year"


class OutdoorYear(NamedTuple):
    """What a weather file gives: its typical year, and the altitude of the station [m]."""

    typical: TypicalYear
    altitude: float


def read_epw(path: Path, file: str) -> OutdoorYear:
    """The year of an EPW file, named `file` in faults. Faulty with all that is wrong in it, 20 faults at most.

    29 February is left out; up to 6 missing hours take the hour before them.
    """
    lines = read_text(path, file).split("\n")
    offset, altitude = _location(lines[0], file)
    faults: list[Fault] = []
    temperature, humidity = _Column(_DRY_BULB, _COLDEST, _WARMEST), _Column(_HUMIDITY, 0.0, _DAMPEST)
    for number, line in enumerate(lines[_HEAD_LINES:], _HEAD_LINES + 1):
        if not line.strip():
            continue
        cells = line.split(",")
        try:
            if (int(cells[_MONTH]), int(cells[_DAY])) != _FEBRUARY_29:
                temperature.take(cells)
                humidity.take(cells)
        except (ValueError, IndexError) as error:
            said = str(error) if isinstance(error, _Gap) else "this is no hour of weather"
            faults.append(Fault(Place(file, number), said, _WRITE))
            if len(faults) == _MOST_FAULTS:
                break
    if not faults and len(temperature.values) != _HOURS:
        faults.append(Fault(Place(file), f"there are {len(temperature.values)} hours of weather, not {_HOURS}", _WRITE))
    if faults:
        raise Faulty(faults)
    shares = tuple(min(percent, 100.0) / 100.0 for percent in humidity.values)
    return OutdoorYear(TypicalYear(offset, tuple(temperature.values), shares), altitude)


class _Gap(ValueError):
    """Too many hours in a row are missing."""


class _Column:
    """One entry of every hour line; figures outside its bounds are missing ones."""

    def __init__(self, at: int, least: float, most: float) -> None:
        self.at, self.least, self.most = at, least, most
        self.values: list[float] = []
        self.missing = 0

    def take(self, cells: list[str]) -> None:
        """Take the next hour. ValueError if it is no number or the gap has grown too long."""
        value = float(cells[self.at])
        if self.least <= value <= self.most:
            self.missing = 0
        elif self.values and self.missing < _LONGEST_GAP:
            self.missing += 1
            value = self.values[-1]
        else:
            raise _Gap(f"more than {_LONGEST_GAP} hours in a row are missing, or the first one is")
        self.values.append(value)


def _location(line: str, file: str) -> tuple[int, float]:
    """Minutes east of UTC and altitude [m] from the first line."""
    cells = line.split(",")
    try:
        if cells[0].strip().upper() != "LOCATION":
            raise ValueError(cells[0])
        return round(float(cells[_ZONE]) * HOUR), float(cells[_ELEVATION])
    except (ValueError, IndexError):
        what = "the first line is not that of a weather file: LOCATION with time zone and elevation"
        raise Faulty([Fault(Place(file), what, _WRITE)]) from None
