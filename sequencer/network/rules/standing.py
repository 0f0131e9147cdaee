"""Who works in a room stands on its floor: one step at a time, and none while the floor is closed to feet.

Looking, measuring and holds do not count as a step in the room, but they stand on the floor too. A room reached through
another is entered over that one's floor.
"""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.cliques import cliques
from sequencer.network.closing import closing_claim, inside
from sequencer.network.model import AtMost, Claim, OneAtATime, Rule, Why
from sequencer.terms.job import Step

FLOORS = ("floor", "shower floor")
OVER_THE_SHOWER = ("wet walls", "shower floor")


def rules(case: Case) -> Iterator[Rule]:
    """Groups of claims for each room: workers in it, and closings of the floors it is entered over."""
    for room in case.job.rooms:
        workers = {s.id: s for s in case.by_room[room.name] if s.where is None and s.stands != "elsewhere"}
        closers = {s.id: s for name in _way_in(case, room.name) for s in case.by_room[name] if closes_floor(s)}
        members = {**workers, **closers}
        within = {id: inside(case, step) for id, step in members.items()}

        def conflict(a: str, b: str) -> bool:
            one, other = members[a], members[b]  # noqa: B023
            if b in within[a] or a in within[b]:  # noqa: B023
                return False
            alone = room.at_once == 1 and counts(one) and counts(other)  # noqa: B023
            together = one.room == other.room == room.name and alone  # noqa: B023
            return together or _shuts_out(one, other) or _shuts_out(other, one)

        for group in cliques(list(members), conflict):
            claims = tuple(closing_claim(case, members[id]) if id in closers else Claim(id) for id in group)
            text = f"one step at a time in the {room.title}, none on a closed floor"
            yield OneAtATime(claims, Why("people", text, room.place))
        counted = tuple(Claim(id) for id, step in workers.items() if counts(step))
        if room.at_once > 1 and len(counted) > room.at_once:
            text = f"at most {room.at_once} steps at once in the {room.title}"
            yield AtMost(room.at_once, counted, Why("people", text, room.place))


def counts(step: Step) -> bool:
    """True if a step takes one of the room's places."""
    return step.kind == "work" and step.stands != "elsewhere" and step.where is None


def closes_floor(step: Step) -> bool:
    """True if a step leaves a floor nobody may stand on."""
    off = step.closing is not None and step.closing.grade == "keep off"
    return off and any(surface.name in FLOORS for surface in step.surfaces)


def stands_on(step: Step, floor: str) -> bool:
    """True if a step needs to stand on that floor of its own room."""
    if step.stands != "floor" or step.where is not None:
        return False
    return floor == "floor" or any(surface.name in OVER_THE_SHOWER for surface in step.surfaces)


def _shuts_out(closer: Step, other: Step) -> bool:
    if not closes_floor(closer):
        return False
    floors = {surface.name for surface in closer.surfaces if surface.name in FLOORS}
    if other.room != closer.room:
        return "floor" in floors and other.where is None and other.stands != "elsewhere"
    return any(stands_on(other, floor) for floor in floors)


def _way_in(case: Case, room: str) -> list[str]:
    way = [room]
    while (through := case.job.room(way[-1]).reached_through) is not None and through not in way:
        way.append(through)
    return way
