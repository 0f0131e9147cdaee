"""Lays out the air of rooms: lines, a logger's file, weather files."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TypeVar

import numpy as np

from sequencer.files.air_lines import laid_out, throughout
from sequencer.files.air_said import AirLine, AirWords, Indoors
from sequencer.files.calendar_days import Calendar
from sequencer.files.days import day_words
from sequencer.files.epw import OutdoorYear, read_epw
from sequencer.files.logger_csv import read_logger
from sequencer.files.tree import Text
from sequencer.files.uses import Use, find
from sequencer.terms.air import AirReading, AirSaid, AirSwitch, OutdoorHours, Outdoors
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Fault, Faulty

T = TypeVar("T")
NONE: tuple[AirReading, ...] = ()


class AirReader:
    """Lays out the air of rooms; every file is read once, every fault told once."""

    def __init__(
        self, folder: Path, calendar: Calendar, start: date, horizon: date, uses: list[Use], faults: list[Fault]
    ) -> None:
        self._folder = folder
        self._days = (calendar, start, horizon)
        self._uses = uses
        self._faults = faults
        self._files: dict[str, object] = {}
        self._met: dict[Fault, None] = {}

    def said(self, room: str, own: AirWords | None, common: AirWords | None) -> AirSaid:
        """A room's own lines and files; where it has none, those of the job."""
        own, common = own or AirWords(), common or AirWords()
        lines = own if own.lines else common
        self._tell([_too_late(line, line.day) for line in lines.lines if line.day and line.day >= self._days[2]])
        readings = self._read(own.readings or common.readings, self._logger, NONE)
        switches = (self._switch(room, line, lines is own) for line in lines.lines if line.after is not None)
        return AirSaid(
            laid_out(lines, *self._days),
            readings,
            self._outdoors(own, common),
            tuple(switch for switch in switches if switch is not None),
        )

    def _switch(self, room: str, line: AirLine, own: bool) -> AirSwitch | None:
        """A line that begins with a step: in a room's own air one of the room, in the job's air any."""
        assert line.after is not None
        faults: list[Fault] = []
        targets = find(line.after.who, line.after.place, self._uses, room if own else None, faults)
        self._tell(faults)
        if not targets:
            return None
        return AirSwitch(tuple(target.last for target in targets), throughout(line, *self._days), line.place)

    def _outdoors(self, own: AirWords, common: AirWords) -> Outdoors | None:
        outdoor, forecast = own.outdoor or common.outdoor, own.forecast or common.forecast
        if outdoor is None and forecast is None:
            return None
        year = self._read(outdoor, _year, None)
        hours = _by_hour(self._read(forecast, self._logger, NONE))
        indoors = own.indoors or common.indoors or Indoors(None, 0.0)
        altitude = own.altitude if own.altitude is not None else common.altitude
        station = year.altitude if year is not None else 0.0
        return Outdoors(
            forecast=hours,
            typical=year.typical if year is not None else None,
            heated_to=indoors.heated_to,
            gain=indoors.gain,
            altitude=station if altitude is None else altitude,
        )

    def _logger(self, path: Path, file: str) -> tuple[AirReading, ...]:
        return read_logger(path, file, self._days[0].zone)

    def _read(self, name: Text | None, read: Callable[[Path, str], T], nothing: T) -> T:
        if name is None:
            return nothing
        if name not in self._files:
            self._files[str(name)] = nothing
            path = self._folder / name
            if not path.is_file():
                what = f'there is no file "{name}" beside the job'
                self._tell([Fault(name.place, what, "name a file in this folder")])
                return nothing
            try:
                self._files[str(name)] = read(path, str(name))
            except Faulty as faulty:
                self._tell(list(faulty.faults))
        return self._files[str(name)]  # type: ignore[return-value]

    def _tell(self, faults: list[Fault]) -> None:
        new = [fault for fault in dict.fromkeys(faults) if fault not in self._met]
        self._met.update(dict.fromkeys(new))
        self._faults.extend(new)


def _too_late(line: AirLine, day: date) -> Fault:
    """A line that would never count: most likely its day lies before the start."""
    what = f"this line begins on {day_words(day)}, after the calendars of the job end"
    return Fault(line.place, what, f"write {day.year - 1} behind its day if that was before the start")


def _year(path: Path, file: str) -> OutdoorYear | None:
    return read_epw(path, file)


def _by_hour(readings: tuple[AirReading, ...]) -> OutdoorHours | None:
    """Readings of outdoor air as hours, each the mean of its readings; nan where there is none."""
    if not readings:
        return None
    first = readings[0].at // HOUR
    count = readings[-1].at // HOUR - first + 1
    figures = []
    for values in ([r.temperature for r in readings], [r.humidity for r in readings]):
        known = [(r.at // HOUR - first, value) for r, value in zip(readings, values, strict=True) if value is not None]
        hours = np.array([hour for hour, _ in known], np.int64)
        sums = np.bincount(hours, [value for _, value in known], count)
        with np.errstate(invalid="ignore"):
            figures.append(tuple((sums / np.bincount(hours, minlength=count)).tolist()))
    return OutdoorHours(first * HOUR, *figures)
