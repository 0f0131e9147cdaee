"""Rooms that the layers drying in them make too damp, as the plan has them dry."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sequencer.terms.job import Room
from sequencer.terms.minute import HOUR
from sequencer.waits.damp import damp, damp_words
from sequencer.waits.wetting import wet_room
from sequencer.writeup.timed import Timed


def damp_rooms(timed: Timed) -> Iterator[tuple[tuple[str, ...], str]]:
    """For every stretch of drying in which a room is too damp the steps whose layers are there, and a sentence."""
    drying: dict[str, list[str]] = {}
    for id in timed.case.drying:
        drying.setdefault(timed.case.job.step(id).room, []).append(id)
    for room in timed.case.job.rooms:
        for together in _together(timed, drying.get(room.name, [])):
            yield from _told(timed, room, together)


def _told(timed: Timed, room: Room, steps: list[str]) -> Iterator[tuple[tuple[str, ...], str]]:
    case, sized = timed.case, wet_room(room)
    if sized is None:
        return
    found = damp(case.airs[room.name], sized, tuple((case.layers[id], case.drying[id]) for id in steps))
    if found is not None:
        there = tuple(steps[number] for number in found.layers)
        titles = " with ".join(dict.fromkeys(case.job.step(id).title for id in there))
        water = sum(case.layers[id].water for id in there)
        yield there, f"{titles}: {damp_words(found, water, sized.volume)}"


def _together(timed: Timed, ids: Iterable[str]) -> Iterator[list[str]]:
    """Of steps of a room those whose layers dry in hours that meet."""
    drying = timed.case.drying
    met: list[str] = []
    until = 0
    for id in sorted(ids, key=lambda id: (drying[id], id)):
        start, end = drying[id]
        if met and start // HOUR >= until:
            yield met
            met = []
        met.append(id)
        until = max(until, -(-end // HOUR))
    if met:
        yield met
