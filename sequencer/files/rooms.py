"""A room's surfaces with their areas, and its air."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from sequencer.files.air_said import AirWords, laid_out
from sequencer.files.calendar_days import Calendar
from sequencer.files.job_model import RoomModel
from sequencer.files.job_texts import Size
from sequencer.files.logger_csv import read_logger
from sequencer.files.wrong import listed, nearest
from sequencer.terms.air import AirReading, AirSaid
from sequencer.terms.job import Room
from sequencer.terms.place import Fault, Faulty, Place
from sequencer.terms.words import SURFACES


def room_areas(size: Size | None, said: dict[str, float]) -> dict[str, float]:
    """Areas [m2] of the surfaces a room has: those said, the rest from its size; in the order of SURFACES.

    With a size, floor and ceiling follow from its sides and the dry walls are what the wet walls leave; a shower floor
    or wet walls that are not said do not exist. Doors and windows are not taken off.
    """
    areas = dict(said)
    if size is not None:
        base = size.length * size.width
        walls = 2 * (size.length + size.width) * size.height
        areas.setdefault("floor", max(0.0, base - said.get("shower floor", 0.0)))
        areas.setdefault("ceiling", base)
        areas.setdefault("dry walls", max(0.0, walls - said.get("wet walls", 0.0)))
    return {surface: areas[surface] for surface in SURFACES if surface in areas}


class AirReader:
    """Lays out the air of rooms; a logger's file is read once."""

    def __init__(self, folder: Path, calendar: Calendar, start: date, horizon: date, faults: list[Fault]) -> None:
        self._folder = folder
        self._days = (calendar, start, horizon)
        self._faults = faults
        self._loggers: dict[str, tuple[AirReading, ...]] = {}

    def said(self, own: AirWords | None, common: AirWords | None) -> AirSaid:
        """A room's own lines and readings; where it has none, those of the job."""
        own, common = own or AirWords(), common or AirWords()
        lines = own if own.lines else common
        name = own.readings or common.readings
        statements = laid_out(lines, *self._days)
        return AirSaid(statements, self._readings(name, name.place) if name is not None else ())

    def _readings(self, name: str, place: Place) -> tuple[AirReading, ...]:
        if name not in self._loggers:
            self._loggers[name] = ()
            path = self._folder / name
            if not path.is_file():
                what = f'there is no file "{name}" beside the job'
                self._faults.append(Fault(place, what, "name a file in this folder"))
                return ()
            try:
                self._loggers[name] = read_logger(path, str(name), self._days[0].zone)
            except Faulty as faulty:
                self._faults.extend(faulty.faults)
        return self._loggers[name]


def room_of(name: str, model: RoomModel, place: Place, air: AirSaid) -> Room:
    """A room as the floors above know it."""
    size = model.size
    return Room(
        name=name,
        title=model.title or name,
        place=place,
        areas=room_areas(size, model.areas or {}),
        volume=size.length * size.width * size.height if size is not None else None,
        at_once=model.at_once or 1,
        already=model.already or (),
        reached_through=model.reached_through.word if model.reached_through is not None else None,
        air=air,
    )


def way_faults(models: dict[str, RoomModel]) -> list[Fault]:
    """Rooms reached through rooms that do not exist, or in a circle."""
    faults: list[Fault] = []
    for name, model in models.items():
        through = model.reached_through
        if through is None:
            continue
        if through.word not in models:
            what = f'"{through.word}" is no room of this job'
            faults.append(Fault(through.place, what, nearest(through.word, [each for each in models if each != name])))
            continue
        way = [name]
        while (step := models[way[-1]].reached_through) is not None and step.word in models and step.word not in way:
            way.append(step.word)
        if step is not None and step.word == name and name == min(way):
            what = f"{listed(way)} are reached only through each other" if len(way) > 1 else "a room leads into itself"
            faults.append(Fault(through.place, what, "let one of them be reached from outside"))
    return faults
