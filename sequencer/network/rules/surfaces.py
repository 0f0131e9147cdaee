"""One step a surface: it belongs to a step from its start to its end, and stays closed until the wait named."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.cliques import cliques
from sequencer.network.closing import closing_claim, inside
from sequencer.network.model import OneAtATime, Rule, Why
from sequencer.network.rules.standing import counts
from sequencer.terms.job import Room


def rules(case: Case) -> Iterator[Rule]:
    """Groups of claims for each surface; open framing is shared, and what a closing waits for goes on inside it.

    Where a room takes one step at a time, two steps that close nothing need no rule of their own.
    """
    for room in case.job.rooms:
        yield from _rules_in(case, room)


def _rules_in(case: Case, room: Room) -> Iterator[Rule]:
    here = {step.id: step for step in case.job.steps_in(room.name) if step.surfaces and step.where is None}
    within = {step.id: inside(case, step) for step in here.values()}

    def conflict(a: str, b: str) -> bool:
        one, other = here[a], here[b]
        let_in = b in within[a] or a in within[b]
        if let_in or (one.open_framing and other.open_framing):
            return False
        return any(x.touches(y) for x in one.surfaces for y in other.surfaces)

    def needed(a: str, b: str) -> bool:
        one, other = here[a], here[b]
        alone = room.at_once == 1 and counts(one) and counts(other)
        return not alone or one.closing is not None or other.closing is not None

    for name in dict.fromkeys(surface.name for step in here.values() for surface in step.surfaces):
        members = [id for id, step in here.items() if any(surface.name == name for surface in step.surfaces)]
        for group in cliques(members, conflict, needed):
            why = Why("material", f"the {name}")
            yield OneAtATime(tuple(closing_claim(case, here[id]) for id in group), why)
