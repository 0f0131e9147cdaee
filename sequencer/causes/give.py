"""How far a cause must give way: each with its ladders of ways to give it, the smallest first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from sequencer.causes import by_house, by_material, by_people
from sequencer.causes.by_air import by_air
from sequencer.causes.ladder import Ladder, Possible, Way
from sequencer.causes.without import without
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job


def smallest(job: Job, cause: Cause, possible: Possible) -> Way | None:
    """The smallest way to give a cause with which a plan is possible; None if not even giving it wholly is enough.

    Other air comes first: what a recipe asks for nobody can change, and air may give more than this cause.
    """
    other_air = _first(by_air(job, cause), possible)
    if other_air is not None:
        return other_air
    wholly = without(job, cause)
    if not possible(wholly):
        return None
    by_degrees = _first(LADDERS.get(cause.kind, _none)(job, cause), possible)
    return by_degrees or Way(WHOLLY[cause.kind].format(of=cause.of), wholly)


def _first(ladders: Iterable[Ladder], possible: Possible) -> Way | None:
    """The first way on the first ladder that has one."""
    return next((way for way in (ladder.first(possible) for ladder in ladders) if way is not None), None)


def _none(job: Job, cause: Cause) -> Iterator[Ladder]:
    """The ladders of what gives way wholly or not at all."""
    yield from ()


LADDERS: dict[str, Callable[[Job, Cause], Iterable[Ladder]]] = {
    "within": by_material.within,
    "wait": by_material.wait,
    "delivery": by_material.delivery,
    "decision": by_material.decision,
    "notice": by_people.notice,
    "cushion": by_people.cushion,
    "days": by_people.more_days,
    "hands": by_people.hands,
    "shortest visit": by_people.shortest_visit,
    "service": by_house.service,
    "toilet": by_house.toilet,
    "look in": by_house.look_in,
    "room": by_house.room,
    "noise": by_house.noise,
    "access": by_house.access,
    "lift": by_house.lift,
}
"""Causes that can give way by degrees."""

WHOLLY: dict[str, str] = {
    "within": "that it may be followed at any later time",
    "wait": "that nothing has to wait for it",
    "closing": "that it does not stay closed",
    "air": "air that keeps to it",
    "my order": "your own order of these two",
    "room": "several steps in the room at once",
    "hands": "a second pair of hands for {of}",
    "travel": "the time on the way",
    "elsewhere": "{of} for this job alone",
    "days": "{of} on every working day",
    "notice": "{of} without notice",
    "cushion": "the cushion",
    "shortest visit": "shorter visits of {of}",
    "booking": "another day for this visit",
    "inspection": "an inspection as soon as it can be looked at",
    "delivery": "on site from the start",
    "service": "{of} off for as long as it takes",
    "one day": "that what is taken off stays off over night",
    "noise": "noise at all working hours",
    "access": "the house open at all working hours",
    "lift": "the lift booked for it",
    "toilet": "more nights without a toilet",
    "look in": "that it may be left alone",
    "fumes": "that people may be in the fumes",
    "fumes at night": "a night away from the fumes",
    "decision": "that it is decided already",
}
"""What is given where a cause gives way wholly."""
