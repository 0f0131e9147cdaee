"""The moments of a logger's file: with or without an offset, and days written in whatever order."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from sequencer.terms.minute import Minute, minute_of

_CLOCK = r"[ T,]+(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})(?::[0-9]{2}(?:\.[0-9]+)?)?\s*(?P<half>[AP]\.?M\.?)?"
_YEAR, _TWO = r"(?P<year>[0-9]{4}|[0-9]{2})", "[0-9]{1,2}"
_YEAR_FIRST = re.compile(rf"(?P<year>[0-9]{{4}})[-/.](?P<month>{_TWO})[-/.](?P<day>{_TWO}){_CLOCK}", re.IGNORECASE)
_DOTS = re.compile(rf"(?P<day>{_TWO})\.(?P<month>{_TWO})\.{_YEAR}{_CLOCK}", re.IGNORECASE)
_STROKES = re.compile(rf"(?P<one>{_TWO})[/-](?P<two>{_TWO})[/-]{_YEAR}{_CLOCK}", re.IGNORECASE)
_MONTHS = 12
_CENTURY = 2000
_HALF_DAY = 12


class Moments:
    """Reads the moments of one file. `cells`: all of them, since only together they tell whether days or months come
    first where both are written as numbers between strokes. Times without an offset are the wall clock of `zone`."""

    def __init__(self, cells: Iterable[str], zone: ZoneInfo) -> None:
        self._zone = zone
        found = [match for cell in cells if (match := _STROKES.fullmatch(cell))]
        self._day_first = any(int(match["one"]) > _MONTHS for match in found)
        self._month_first = any(int(match["two"]) > _MONTHS for match in found)

    def read(self, cell: str, newest: Minute | None) -> Minute:
        """The minute of a cell. Of an hour that comes twice the second is meant once the clock has gone back: the
        first is no later than `newest`. Raises ValueError."""
        moment = self._parsed(cell)
        if moment.tzinfo is not None:
            return minute_of(moment)
        at = minute_of(moment.replace(tzinfo=self._zone))
        if newest is not None and at <= newest:
            return minute_of(moment.replace(tzinfo=self._zone, fold=1))
        return at

    def _parsed(self, cell: str) -> datetime:
        try:
            moment = datetime.fromisoformat(cell)
        except ValueError:
            pass
        else:
            if len(cell) <= len("2026-03-02"):
                raise ValueError(f'"{cell}" says no hour')
            return moment
        match = _YEAR_FIRST.fullmatch(cell) or _DOTS.fullmatch(cell)
        if match is not None:
            return _moment(cell, match, match["day"], match["month"])
        match = _STROKES.fullmatch(cell)
        if match is None:
            raise ValueError(f'"{cell}" is no time')
        if self._day_first == self._month_first:
            raise ValueError(f'"{cell}" does not tell the day from the month, nor do the other lines')
        day, month = (match["one"], match["two"]) if self._day_first else (match["two"], match["one"])
        return _moment(cell, match, day, month)


def _moment(cell: str, match: re.Match[str], day: str, month: str) -> datetime:
    year, hour, half = int(match["year"]), int(match["hour"]), (match["half"] or "").upper().replace(".", "")
    if half and not 1 <= hour <= _HALF_DAY:
        raise ValueError(f'"{cell}" is no time')
    hour = hour % _HALF_DAY + _HALF_DAY * (half == "PM") if half else hour
    try:
        midnight = datetime(year if year > 99 else _CENTURY + year, int(month), int(day))
        return midnight.replace(minute=int(match["minute"])) + timedelta(hours=_checked(hour))
    except ValueError as error:
        raise ValueError(f'"{cell}" is no time') from error


def _checked(hour: int) -> int:
    if hour > 2 * _HALF_DAY:
        raise ValueError(str(hour))
    return hour
