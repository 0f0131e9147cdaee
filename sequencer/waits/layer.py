"""A layer that gives off water, and the room it wets."""

from __future__ import annotations

from dataclasses import dataclass, replace

from sequencer.terms.job import Room, Step
from sequencer.terms.laws import WET_SURFACE
from sequencer.terms.minute import Span
from sequencer.terms.wait import Wait
from sequencer.waits.families.drying import VapourDeficit
from sequencer.waits.rate import depth_factor
from sequencer.waits.table import LAWS

AIR_DENSITY = 1.2
"""Dry air at 20 C and sea level [kg/m3] (ASHRAE Fundamentals, standard air)."""


@dataclass(frozen=True)
class WetRoom:
    """A room that can be wetted: its volume [m3] and air changes [1/h] with air as it is said to be.

    `dryer` [kg/h]: what a dehumidifier takes out.
    """

    volume: float
    changes: float
    dryer: float = 0.0

    @property
    def exchange(self) -> float:
        """Dry air that comes and goes [kg/h]."""
        return self.changes * AIR_DENSITY * self.volume


@dataclass(frozen=True)
class Layer:
    """A layer's water [kg] and the wait over which it leaves, by a law of drying."""

    water: float
    dries: Wait

    def __hash__(self) -> int:
        """Of what tells most layers apart: the whole wait takes long to hash."""
        return hash((self.water, self.dries.law, self.dries.hours))


Layers = tuple[Layer, ...]
WhenLayers = tuple[tuple[Layer, Span], ...]


def wet_room(room: Room) -> WetRoom | None:
    """A room as its layers wet it; None if its size is unknown."""
    return None if room.volume is None else WetRoom(room.volume, room.air_changes, room.dryer)


def layer_of(step: Step) -> Layer | None:
    """The layer of a step that gives off water; None if it has none, or if it is taken to be dry at once."""
    wait = step.wait_for(step.dries_for) if step.dries_for is not None else None
    return None if wait is None or not step.water or not wait.hours else Layer(step.water, drying(wait))


def drying(wait: Wait) -> Wait:
    """How the water of a layer leaves while a wait runs: hours for its own depth, by a law of drying."""
    law = wait.law if isinstance(LAWS[wait.law].family, VapourDeficit) else WET_SURFACE
    return replace(wait, law=law, hours=wait.hours * depth_factor(wait), thickness=None)
