"""No order fits: which rules collide, where each is written, and the smallest thing to give."""

from __future__ import annotations

from functools import partial

from sequencer.air.hourly import RoomAir
from sequencer.causes.collide import Collision, collision
from sequencer.causes.give import smallest
from sequencer.causes.listed import causes_of
from sequencer.causes.say import place_of, said
from sequencer.causes.without import without
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.solve import fits
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job

EFFORT = 0.5
"""Limit of asking once whether a plan exists [deterministic seconds of the solver]."""

MOST = 80
"""How often it is asked, at most, before the set counts as not proven irreducible."""

SETS = 3
"""Colliding sets told, one after the other, where giving one rule is not enough."""

TOLD = 8
"""Colliding rules up to which ways to give are looked for. A larger set was cut short, and each way costs time."""


def colliding(job: Job, airs: dict[str, RoomAir], most: int = MOST) -> Collision | None:
    """The rules of a job that cannot all hold; None if a plan exists or it is not known that none does."""
    causes = causes_of(job)

    def held(these: frozenset[Cause]) -> bool | None:
        return fits(build(Case(without(job, *(cause for cause in causes if cause not in these)), airs)), EFFORT)

    return collision(causes, held, most)


def no_order_fits(job: Job, airs: dict[str, RoomAir]) -> tuple[str, ...]:
    """Sentences for the reader of the files: the rules that collide, each with its place and what to give.

    Where giving one rule is never enough other rules collide too: then the first is given and the next set is told.
    """

    def possible(changed: Job) -> bool:
        return fits(build(Case(changed, airs)), EFFORT) is True

    told: list[str] = []
    left = job
    for _ in range(SETS):
        found = colliding(left, airs)
        if found is None:
            break
        if not found.causes:
            return (*told, "The hours of work and the order of the recipes alone do not fit the calendar.")
        gives = [smallest(left, cause, possible) if len(found.causes) <= TOLD else None for cause in found.causes]
        told += [_head(found, again=bool(told)), *map(partial(_member, left), found.causes, gives), *_foot(found)]
        if any(gives) or not found.irreducible:
            break
        left = without(left, found.causes[0])
    return tuple(told)


def _head(found: Collision, again: bool) -> str:
    count = len(found.causes)
    these = "This rule cannot be kept:" if count == 1 else f"These {count} rules cannot all be kept:"
    return f"With the first of them given: {these[0].lower()}{these[1:]}" if again else these


def _foot(found: Collision) -> tuple[str, ...]:
    if found.irreducible:
        return ()
    return ("It is not proven in the time that all of these are needed for the collision.",)


def _member(job: Job, cause: Cause, given: str | None) -> str:
    where = place_of(job, cause)
    rule = f"{where}: {said(job, cause)}" if where else said(job, cause)
    return f"{rule}; give: {given}" if given else f"{rule}; to give this alone is not enough"
