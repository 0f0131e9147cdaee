"""A logger's hours: a CSV with time, temperature and humidity, in whatever of the usual forms."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.files.text import read_text
from sequencer.terms.air import AirReading
from sequencer.terms.minute import Minute, minute_of
from sequencer.terms.place import Fault, Faulty, Place

_TIME = re.compile(r"\b(time|date|datetime|timestamp|date[ _-]?time)\b", re.IGNORECASE)
_TEMPERATURE = re.compile(r"temp|°\s*[CF]\b", re.IGNORECASE)
_HUMIDITY = re.compile(r"humid|\brh\b|%", re.IGNORECASE)
_FAHRENHEIT = re.compile(r"(?:^|[\s(_°\[/])F(?:ahrenheit)?(?:$|[\s)\]])", re.IGNORECASE)
_FORMS = ("%Y-%m-%d %H:%M:%S", "%Y-%m-%d %H:%M", "%d.%m.%Y %H:%M", "%d.%m.%Y %H:%M:%S")
_NUMBER = re.compile(r"[-+]?[0-9]{1,4}(?:\.[0-9]{1,9})?")
_MOST_FAULTS = 20

HOTTEST, COLDEST = 60.0, -40.0
"""No room a logger stands in is beyond these [C]: an assumption, no source."""


@dataclass(frozen=True)
class _Columns:
    time: int
    temperature: int | None
    humidity: int | None
    fahrenheit: bool
    percent: bool


def read_logger(path: Path, file: str, zone: ZoneInfo) -> tuple[AirReading, ...]:
    """The readings of a logger's file, in order of time. Raises Faulty with its faults (20 at most).

    Times without an offset are the wall clock of `zone`; of an hour that comes twice, the second is meant once the
    clock has gone back.
    """
    lines = read_text(path, file).split("\n")
    delimiter = max(",;\t", key=lines[0].count)
    rows = list(csv.reader(lines, delimiter=delimiter))
    decimal_comma = delimiter != ","
    columns = _columns(rows[0], [row for row in rows[1:] if row], file, decimal_comma)
    faults: list[Fault] = []
    readings: list[AirReading] = []
    newest: Minute | None = None
    for number, row in enumerate(rows[1:], 2):
        if not any(cell.strip() for cell in row):
            continue
        place = Place(file, number)
        try:
            _count(row, rows[0])
            at = _moment(_cell(row, columns.time), zone, newest)
            temperature = _temperature(_number(_cell(row, columns.temperature), decimal_comma), columns.fahrenheit)
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


def _count(row: list[str], head: list[str]) -> None:
    """A line has no more cells than the first line names. Raises ValueError: decimals with a comma look like two."""
    if len(row) > len(head):
        raise ValueError(f"{len(row)} cells stand here, but the first line names {len(head)} columns")


def _columns(head: list[str], rows: list[list[str]], file: str, decimal_comma: bool) -> _Columns:
    def column(pattern: re.Pattern[str], taken: set[int | None]) -> int | None:
        return next((at for at, name in enumerate(head) if at not in taken and pattern.search(name)), None)

    time = column(_TIME, set())
    temperature = column(_TEMPERATURE, {time})
    humidity = column(_HUMIDITY, {time, temperature})
    if time is None or (temperature is None and humidity is None):
        what = "the first line does not name time, temperature and humidity"
        raise Faulty([Fault(Place(file), what, "start the file with: time,temperature C,humidity %")])
    percent = True
    if humidity is not None and "%" not in head[humidity]:
        percent = any(_larger(_cell(row, humidity), decimal_comma) for row in rows)
    fahrenheit = temperature is not None and bool(_FAHRENHEIT.search(head[temperature]))
    return _Columns(time, temperature, humidity, fahrenheit, percent)


def _larger(cell: str, decimal_comma: bool) -> bool:
    try:
        number = _number(cell, decimal_comma)
    except ValueError:
        return False
    return number is not None and number > 1


def _cell(row: list[str], at: int | None) -> str:
    return row[at].strip() if at is not None and at < len(row) else ""


def _number(cell: str, decimal_comma: bool) -> float | None:
    text = cell.replace(",", ".") if decimal_comma else cell
    text = re.sub(r"\s*(°?\s*[CF]|%)$", "", text)
    if not text:
        return None
    if not _NUMBER.fullmatch(text):
        raise ValueError(f'"{cell}" is no number')
    return float(text)


def _temperature(number: float | None, fahrenheit: bool) -> float | None:
    if number is None:
        return None
    celsius = (number - 32) * 5 / 9 if fahrenheit else number
    if not COLDEST <= celsius <= HOTTEST:
        hint = "" if fahrenheit else "; if it is F, say temperature F in the first line"
        raise ValueError(f"{number:g} is no temperature of a room{hint}")
    return celsius


def _share(number: float | None, percent: bool) -> float | None:
    if number is None:
        return None
    share = number / 100 if percent else number
    if not 0 <= share <= 1:
        raise ValueError(f"{number:g} is no humidity")
    return share


def _moment(cell: str, zone: ZoneInfo, newest: Minute | None) -> Minute:
    moment = _parsed(cell)
    if moment.tzinfo is not None:
        return minute_of(moment)
    at = minute_of(moment.replace(tzinfo=zone))
    if newest is not None and at <= newest:
        return minute_of(moment.replace(tzinfo=zone, fold=1))
    return at


def _parsed(cell: str) -> datetime:
    try:
        return datetime.fromisoformat(cell)
    except ValueError:
        pass
    for form in _FORMS:
        try:
            return datetime.strptime(cell, form)
        except ValueError:
            continue
    raise ValueError(f'"{cell}" is no time')
