"""One step a surface, one step a room, and nobody on a floor that is closed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from sequencer.audit.site import Site, overlap
from sequencer.terms.job import Room, Step
from sequencer.terms.words import FLOORS, OVER_THE_SHOWER


def broken(site: Site) -> Iterator[str]:
    """Steps that meet on a surface, in a room, or on a closed floor."""
    for room in site.job.rooms:
        here = [step for step in site.in_room(room.name) if step.where is None]
        for (one, its), (other, theirs) in combinations([(step, site.shut(step)) for step in here], 2):
            if overlap(its, theirs):
                yield from _same_surface(site, one, other)
        yield from _too_many(site, room, here)
        standing = [step for step in here if step.stands != "elsewhere"]
        through = (step for name in (room.name, *site.way_in(room.name)) for step in site.in_room(name))
        for closer, other in product(filter(_closes_floor, through), standing):
            if closer is not other and overlap(site.shut(closer), (site.start(other), site.end(other))):
                yield from _closed_floor(site, closer, other)


def _same_surface(site: Site, one: Step, other: Step) -> Iterator[str]:
    if (one.open_framing and other.open_framing) or site.let_in(one, other) or site.let_in(other, one):
        return
    if site.behind(one, other):
        return
    if any(a.touches(b) for a in one.surfaces for b in other.surfaces):
        yield f"{one.id} and {other.id} meet on a surface that is closed to one of them"


def _too_many(site: Site, room: Room, here: list[Step]) -> Iterator[str]:
    counted = [step for step in here if step.kind == "work" and step.stands != "elsewhere"]
    for step in counted:
        at = site.start(step)
        there = [s for s in counted if site.start(s) <= at < site.end(s)]
        if len(there) > room.at_once and not site.behind(*there):
            yield f"{', '.join(s.id for s in there)} are in the {room.name} at once"


def _closes_floor(step: Step) -> bool:
    return step.where is None and step.closing is not None and step.closing.grade == "keep off"


def _closed_floor(site: Site, closer: Step, other: Step) -> Iterator[str]:
    if site.let_in(closer, other) or site.let_in(other, closer) or site.behind(closer, other):
        return
    floors = {surface.name for surface in closer.surfaces} & {*FLOORS}
    room_floor, shower_floor = FLOORS
    if other.room == closer.room:
        stood_on = {room_floor} if other.stands == "floor" else set()
        if stood_on and {surface.name for surface in other.surfaces} & {*OVER_THE_SHOWER}:
            stood_on.add(shower_floor)
    else:
        stood_on = {room_floor}
    if floors & stood_on:
        yield f"{other.id} stands on a floor that {closer.id} keeps closed"
