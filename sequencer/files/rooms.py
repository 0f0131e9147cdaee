"""A room's surfaces with their areas, and its air."""

from __future__ import annotations

from sequencer.files.job_model import RoomModel
from sequencer.files.job_texts import Size
from sequencer.files.wrong import listed, nearest
from sequencer.terms.air import AirSaid
from sequencer.terms.job import Room
from sequencer.terms.place import Fault, Place
from sequencer.terms.practice import AIR_CHANGES
from sequencer.terms.words import CEILING, DRY_WALLS, FLOOR, SHOWER_FLOOR, SURFACES, WET_WALLS


def room_areas(size: Size | None, said: dict[str, float]) -> dict[str, float]:
    """Areas [m2] of the surfaces a room has: those said, the rest from its size; in the order of SURFACES.

    With a size, floor and ceiling follow from its sides and the dry walls are what the wet walls leave; a shower floor
    or wet walls that are not said do not exist. Doors and windows are not taken off.
    """
    areas = dict(said)
    if size is not None:
        base = size.length * size.width
        walls = 2 * (size.length + size.width) * size.height
        areas.setdefault(FLOOR, max(0.0, base - said.get(SHOWER_FLOOR, 0.0)))
        areas.setdefault(CEILING, base)
        areas.setdefault(DRY_WALLS, max(0.0, walls - said.get(WET_WALLS, 0.0)))
    return {surface: areas[surface] for surface in SURFACES if surface in areas}


def room_of(name: str, model: RoomModel, place: Place, air: AirSaid) -> Room:
    """A room as the floors above know it."""
    size = model.size
    volume = size.length * size.width * size.height if size is not None else None
    changes = AIR_CHANGES if model.air_changes is None else model.air_changes
    return Room(
        name=name,
        title=model.title or name,
        place=place,
        areas=room_areas(size, model.areas or {}),
        volume=volume,
        air_changes=changes + (model.fan or 0.0) / volume if volume else changes,
        dryer=model.dehumidifier or 0.0,
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
