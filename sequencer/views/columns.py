"""Which rooms and surfaces a diary shows, and which surfaces share a column."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.plan import Plan
from sequencer.terms.words import FOLDED, SURFACES
from sequencer.views.held import base


@dataclass(frozen=True)
class Column:
    """A surface, or surfaces that share a column."""

    name: str
    surfaces: tuple[str, ...]

    def shows(self, surfaces: tuple[str, ...]) -> bool:
        """True if one of these surfaces (or their parts) stands in this column."""
        return any(base(surface) in self.surfaces for surface in surfaces)


def rooms_of(plan: Plan) -> tuple[str, ...]:
    """Rooms in which anything happens, in the order of the job's file."""
    named = [*plan.room_titles, *sorted({step.room for step in plan.steps if step.room})]
    happens = {step.room for step in plan.steps}
    return tuple(room for room in dict.fromkeys(named) if room in happens)


def columns_of(plan: Plan, room: str, most: int) -> tuple[Column, ...]:
    """The surfaces of a room that anything happens on, folded together while they are more than `most`."""
    used = {base(surface) for step in plan.steps if step.room == room for surface in step.surfaces}
    used |= {base(closed.surface) for closed in plan.closed if closed.room == room}
    order = [*SURFACES, *sorted(used.difference(SURFACES))]
    columns = [Column(surface, (surface,)) for surface in order if surface in used]
    for name, members in FOLDED.items():
        if len(columns) > most and used.issuperset(members):
            at = min(index for index, column in enumerate(columns) if column.name in members)
            columns = [column for column in columns if column.name not in members]
            columns.insert(at, Column(name, members))
    return tuple(columns)
