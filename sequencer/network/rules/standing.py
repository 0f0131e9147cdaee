"""Who works in a room stands on its floor: one step at a time, and none while the floor is closed to feet.

Looking, measuring and holds do not count as a step in the room, but they stand on the floor too. A room reached through
another is entered over that one's floor.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from sequencer.network.case import Case
from sequencer.network.cliques import cliques
from sequencer.network.closing import closing_claim, inside
from sequencer.network.model import AtMost, Claim, OneAtATime, Rule, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Room, Step
from sequencer.terms.words import FLOORS, OVER_THE_SHOWER


def rules(case: Case) -> Iterator[Rule]:
    """Groups of claims for each room: workers in it, and closings of the floors it is entered over."""
    for room in case.job.rooms:
        workers = {s.id: s for s in case.job.steps_in(room.name) if s.where is None and s.stands != "elsewhere"}
        closers = {s.id: s for name in case.way_in(room.name) for s in case.job.steps_in(name) if closes_floor(s)}
        why = Why("people", f"the {room.title}", room.place, None, Cause("room", room.name))
        for claims in _never_at_once(case, room, workers, closers):
            yield OneAtATime(claims, why)
        counted = tuple(Claim(id) for id, step in workers.items() if counts(step))
        if room.at_once > 1 and len(counted) > room.at_once:
            text = f"at most {room.at_once} steps at once in the {room.title}"
            yield AtMost(room.at_once, counted, Why("people", text, room.place, None, why.cause))


def _never_at_once(
    case: Case, room: Room, workers: dict[str, Step], closers: dict[str, Step]
) -> Iterator[tuple[Claim, ...]]:
    """Groups in which a step that closes a floor claims it until it opens, where all the others need that floor.

    Who shares the room but not the floor (on a plank, at the door, beside the shower) keeps clear of the work alone.
    What a closing lets in comes after it anyhow, unless the step between them was done too soon.
    """
    members = {**workers, **closers}
    counted = {id for id, step in workers.items() if room.at_once == 1 and counts(step)}
    within = {id: inside(case, step) for id, step in members.items()}
    closing = {id: closing_claim(case, step) for id, step in closers.items()}

    def alone(a: str, b: str) -> bool:
        return a in counted and b in counted and b not in within[a] and a not in within[b]

    shut = {a: {b for b in workers if b not in within[a] and _shuts_out(closers[a], workers[b])} for a in closers}

    def shuts_out(a: str, b: str) -> bool:
        return b in shut[a] and a not in within[b]

    def both_ways(a: str, b: str) -> bool:
        if a in closers:
            return shuts_out(a, b) and (b not in closers or shuts_out(b, a))
        return shuts_out(b, a) if b in closers else alone(a, b)

    for group in cliques(list(members), both_ways):
        yield tuple(closing.get(id, Claim(id)) for id in group)
    one_way = {(a, b): None for a, b in permutations(closers, 2) if shuts_out(a, b) and not shuts_out(b, a)}
    yield from ((closing[a], Claim(b)) for a, b in one_way)

    def unsaid(a: str, b: str) -> bool:
        return not both_ways(a, b) and (a, b) not in one_way and (b, a) not in one_way

    for group in cliques(list(workers), alone, unsaid):
        yield tuple(Claim(id) for id in group)
    if case.job.past:
        inner = [(a, b) for a in counted for b in within[a] if b in counted and (a, b) not in one_way]
        yield from ((Claim(a), Claim(b)) for a, b in sorted(inner))


def counts(step: Step) -> bool:
    """True if a step takes one of the room's places."""
    return step.kind == "work" and step.stands != "elsewhere" and step.where is None


def closes_floor(step: Step) -> bool:
    """True if a step leaves a floor nobody may stand on."""
    off = step.closing is not None and step.closing.grade == "keep off" and step.where is None
    return off and any(surface.name in FLOORS for surface in step.surfaces)


def stands_on(step: Step, floor: str) -> bool:
    """True if a step needs to stand on that floor of its own room."""
    if step.stands != "floor" or step.where is not None:
        return False
    return floor == FLOORS[0] or any(surface.name in OVER_THE_SHOWER for surface in step.surfaces)


def _shuts_out(closer: Step, other: Step) -> bool:
    if not closes_floor(closer):
        return False
    floors = {surface.name for surface in closer.surfaces if surface.name in FLOORS}
    if other.room != closer.room:
        return FLOORS[0] in floors and other.where is None and other.stands != "elsewhere"
    return any(stands_on(other, floor) for floor in floors)
