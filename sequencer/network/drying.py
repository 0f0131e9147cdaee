"""When the layers of a plan wet their rooms: each from its end of work until it is ready, in the air they all make."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np

from sequencer.network.case import Case
from sequencer.terms.minute import HOUR, Minute, Span
from sequencer.waits.felt import feels_humidity


def as_they_dry(case: Case, ends: Mapping[str, Minute]) -> Case:
    """The same case with its layers drying from these ends of work on, by step.

    What a layer does to others is seen by the hour and goes only forwards in time, so every round settles an hour more
    at least; it is over when a round changes no hour.
    """
    if not case.layers:
        return case
    here = case
    while True:
        there = here.drying_as({id: _span(here, id, ends[id]) for id in case.layers if id in ends})
        if _hours(there.drying) == _hours(here.drying):
            return here
        here = there


def moved_by_others(case: Case) -> frozenset[str]:
    """The steps with a window counted from ready that the water of other layers moves, so that it may even help."""
    rooms = [case.job.step(id).room for id in case.layers]
    return frozenset(
        step.id
        for step in case.job.steps
        if rooms.count(step.room) > (step.id in case.layers)
        and any(wait.within_of_ready and feels_humidity(wait) for wait in step.waits)
    )


def in_rooms(taken: Case, other: Case, rooms: Collection[str]) -> Case:
    """The case with the layers of some rooms drying as in another one."""
    there = {id: span for id, span in other.drying.items() if other.job.step(id).room in rooms}
    kept = {id: span for id, span in taken.drying.items() if taken.job.step(id).room not in rooms}
    return other.drying_as({id: span for id in other.layers if (span := there.get(id) or kept.get(id)) is not None})


def wider(one: Case, other: Case) -> Case:
    """The case with every layer drying from when it does in either case until it no longer does in either."""
    both = {
        id: (min(span[0], one.drying.get(id, span)[0]), max(span[1], one.drying.get(id, span)[1]))
        for id, span in other.drying.items()
    }
    return other.drying_as(both)


def dampest(case: Case) -> Case:
    """The case with every layer drying throughout."""
    ever = (case.job.start, max((air.end for air in case.airs.values()), default=case.job.start))
    return case.drying_as(dict.fromkeys(case.layers, ever))


def covers(wider: Mapping[str, Span], drying: Mapping[str, Span]) -> bool:
    """True if every hour in which a layer dries is one in which it was taken to."""
    return all(
        id in wider and wider[id][0] // HOUR <= start // HOUR and -(-end // HOUR) <= -(-wider[id][1] // HOUR)
        for id, (start, end) in drying.items()
    )


def _span(case: Case, id: str, end: Minute) -> Span:
    step = case.job.step(id)
    known = case.in_room(step.room).spans
    if (id, end) not in known:
        wait = step.wait_for(step.dries_for or "")
        assert wait is not None, f"{id} has a layer that dries for nothing"
        known[id, end] = end, int(case.clock(step, wait).ready(np.array([end], np.int64))[0])
    return known[id, end]


def _hours(drying: Mapping[str, Span]) -> dict[str, Span]:
    return {id: (start // HOUR, -(-end // HOUR)) for id, (start, end) in drying.items()}
