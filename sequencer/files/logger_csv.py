"""A logger's hours: a CSV with time, temperature and humidity, in whatever of the usual forms."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.files.logger_times import Moments
from sequencer.files.quantities import COLDEST, HOTTEST
from sequencer.files.text import read_text
from sequencer.terms.air import AirReading
from sequencer.terms.minute import Minute
from sequencer.terms.place import Fault, Faulty, Place

_TIME = re.compile(r"(?<![a-z])(date|time|datetime|timestamp|date[ _-]?time)(?![a-z])", re.IGNORECASE)
_TEMPERATURE = re.compile(r"temp|°\s*[CF]\b", re.IGNORECASE)
_HUMIDITY = re.compile(r"humid|\brh\b|%", re.IGNORECASE)
_FAHRENHEIT = re.compile(r"(?:^|[\s(_°\[/])F(?:ahrenheit)?(?:$|[\s)\]])", re.IGNORECASE)
_CELSIUS = re.compile(r"(?:^|[\s(_°\[/])C(?:elsius)?(?:$|[\s)\]])", re.IGNORECASE)
_NUMBER = re.compile(r"[-+]?[0-9]{1,4}(?:\.[0-9]{1,9})?")
_UNIT = re.compile(r"\s*°?\s*(?P<unit>[CF])$|\s*%$")
_NOTHING = frozenset({"", "-", "--", "---", "n/a", "na", "nan", "null", "none"})
"""What loggers write where they have no figure."""
_MOST_FAULTS = 20
_LINES_BEFORE = 40
"""Lines of serial numbers and settings that may stand before the line that names the columns."""

WARM = 40.0
"""Where nothing says that the figures are C, no room is warmer than this [C]: an assumption, no source."""


@dataclass(frozen=True)
class _Columns:
    time: int
    hour: int | None
    temperature: int | None
    humidity: int | None
    unit: str
    percent: bool
    count: int


def read_logger(path: Path, file: str, zone: ZoneInfo) -> tuple[AirReading, ...]:
    """The readings of a logger's file, in order of time. Raises Faulty with its faults (20 at most).

    Times without an offset are the wall clock of `zone`; of an hour that comes twice, the second is meant once the
    clock has gone back.
    """
    lines = read_text(path, file).split("\n")
    top = next((at for at, line in enumerate(lines[:_LINES_BEFORE]) if _names_columns(line)), 0)
    delimiter = max(",;\t", key=lines[top].count)
    rows = list(csv.reader(lines[top:], delimiter=delimiter))
    decimal_comma = delimiter != ","
    told = [(number, row) for number, row in enumerate(rows[1:], top + 2) if any(cell.strip() for cell in row)]
    columns = _columns(rows[0], [row for _, row in told], file, decimal_comma)
    moments = Moments((_when(row, columns) for _, row in told), zone)
    faults: list[Fault] = []
    readings: list[AirReading] = []
    newest: Minute | None = None
    for number, row in told:
        place = Place(file, number)
        try:
            _count(row, columns)
            at = moments.read(_when(row, columns), newest)
            temperature = _temperature(_cell(row, columns.temperature), columns.unit, decimal_comma)
            humidity = _share(_number(_cell(row, columns.humidity), decimal_comma), columns.percent)
        except ValueError as error:
            write = "write 2026-03-02 08:00,17.5,65, with a decimal point, or ; between cells"
            faults.append(Fault(place, str(error), write))
            if len(faults) == _MOST_FAULTS:
                break
            continue
        newest = at
        readings.append(AirReading(at, temperature, humidity, place))
    if faults:
        raise Faulty(faults)
    return tuple(sorted(readings, key=lambda reading: reading.at))


def _names_columns(line: str) -> bool:
    return bool(_TIME.search(line)) and bool(_TEMPERATURE.search(line) or _HUMIDITY.search(line))


def _count(row: list[str], columns: _Columns) -> None:
    """A line has no more cells than the first line names. Raises ValueError: decimals with a comma look like two."""
    if len(row) > columns.count:
        raise ValueError(f"{len(row)} cells stand here, but the first line names {columns.count} columns")


def _columns(head: list[str], rows: list[list[str]], file: str, decimal_comma: bool) -> _Columns:
    def column(pattern: re.Pattern[str], taken: set[int | None]) -> int | None:
        return next((at for at, name in enumerate(head) if at not in taken and pattern.search(name)), None)

    time = column(_TIME, set())
    temperature = column(_TEMPERATURE, {time})
    humidity = column(_HUMIDITY, {time, temperature})
    if time is None or (temperature is None and humidity is None):
        what = "no line names time, temperature and humidity"
        raise Faulty([Fault(Place(file), what, "start the file with: time,temperature C,humidity %")])
    hour = column(_TIME, {time, temperature, humidity})
    percent = True
    if humidity is not None and "%" not in head[humidity]:
        percent = any(_larger(_cell(row, humidity), decimal_comma) for row in rows)
    return _Columns(time, hour, temperature, humidity, _unit(head, temperature), percent, len(head))


def _unit(head: list[str], temperature: int | None) -> str:
    """What the head says the temperature is in: F, C, or nothing."""
    name = head[temperature] if temperature is not None else ""
    return "F" if _FAHRENHEIT.search(name) else "C" if _CELSIUS.search(name) else ""


def _when(row: list[str], columns: _Columns) -> str:
    """The day and the hour, in one cell or in two."""
    return f"{_cell(row, columns.time)} {_cell(row, columns.hour)}".strip()


def _larger(cell: str, decimal_comma: bool) -> bool:
    try:
        number = _number(cell, decimal_comma)
    except ValueError:
        return False
    return number is not None and number > 1


def _cell(row: list[str], at: int | None) -> str:
    return row[at].strip() if at is not None and at < len(row) else ""


def _number(cell: str, decimal_comma: bool) -> float | None:
    if cell.casefold() in _NOTHING:
        return None
    text = _UNIT.sub("", cell.replace(",", ".") if decimal_comma else cell)
    if not _NUMBER.fullmatch(text):
        raise ValueError(f'"{cell}" is no number')
    return float(text)


def _temperature(cell: str, unit: str, decimal_comma: bool) -> float | None:
    """The temperature [C] of a cell; its own unit goes before that of the head."""
    number = _number(cell, decimal_comma)
    if number is None:
        return None
    own = _UNIT.search(cell)
    unit = (own["unit"] or unit) if own else unit
    celsius = (number - 32) * 5 / 9 if unit == "F" else number
    if not COLDEST <= celsius <= (HOTTEST if unit else WARM):
        hint = "" if unit else "; if it is F, say temperature F in the first line, or else temperature C"
        raise ValueError(f"{number:g} is no temperature of a room{hint}")
    return celsius


def _share(number: float | None, percent: bool) -> float | None:
    if number is None:
        return None
    share = number / 100 if percent else number
    if not 0 <= share <= 1:
        raise ValueError(f"{number:g} is no humidity")
    return share
