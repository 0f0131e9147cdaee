"""Heating cables in a room: they cannot be cut, so they fit the free floor or they do not; limits of their readings."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sequencer.files.job_model import CableModel, RoomModel
from sequencer.files.uses import Use
from sequencer.terms.job import Room
from sequencer.terms.place import Fault
from sequencer.terms.words import FLOORS

READ = "resistance"
"""A line under `record` that begins so is a reading of the cable's resistance."""


def cable_faults(uses: list[Use], rooms: dict[str, Room], models: dict[str, RoomModel]) -> Iterator[Fault]:
    """Cables too large for the floor they are laid on, and words on a cable where none is laid."""
    for use in uses:
        if use.recipe is None or use.model.cable is None:
            continue
        if use.recipe.cable is None:
            yield Fault(use.place, f'"{use.name}" lays no cable, so cable: says nothing', "leave out cable:")
        else:
            yield from _too_large(use, use.model.cable, rooms[use.room], models[use.room])


def _too_large(use: Use, cable: CableModel, room: Room, model: RoomModel) -> Iterator[Fault]:
    floor, clear = room.areas.get(FLOORS[0], 0.0), cable.keep_clear or 0.0
    border = _border(use, floor, model)
    free = max(0.0, floor - border - clear)
    if cable.covers > free:
        what = (
            f"a cable for {cable.covers:.1f} m2 cannot be cut, and {free:.2f} m2 of floor are free: {floor:.2f} m2 "
            f"less {border:.2f} m2 along the walls and {clear:.2f} m2 kept clear"
        )
        largest = math.floor(10 * free) / 10
        yield Fault(use.place, what, f"order one for {largest:.1f} m2 at most, or correct keep clear:")


def _border(use: Use, floor: float, model: RoomModel) -> float:
    """The strip along the walls that stays free [m2]; of a room without a size, as if its floor were square."""
    assert use.recipe is not None and use.recipe.cable is not None
    margin = use.recipe.cable.margin
    length, width = (model.size.length, model.size.width) if model.size is not None else (floor**0.5, floor**0.5)
    return min(floor, 2 * margin * (length + width) - 4 * margin**2)


def with_limits(use: Use, record: tuple[str, ...]) -> tuple[str, ...]:
    """What to write down, the cable's readings with the limits its label sets [ohm]."""
    if use.model.cable is None or use.model.cable.ohms is None:
        return record
    low, high = use.model.cable.ohms
    return tuple(f"{line}, {low:.1f} to {high:.1f} ohm" if line.startswith(READ) else line for line in record)
