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

LEAST = 10
"""How often it is asked at least, in however large a job."""

EFFORT = 0.5
"""Limit of asking once whether a plan exists [deterministic seconds of the solver]."""

MOST, MOST_STEPS = 80, 8000
"""How often it is asked, at most, before the set counts as not proven irreducible; in large jobs less often: so many
steps in all, so that an answer takes seconds."""

SETS = 3
"""Colliding sets told, one after the other, where giving one rule is not enough."""

TOLD, STEPS_GIVEN = 8, 250
"""Colliding rules, and steps of a job, up to which ways to give are looked for: each of them costs time."""


NOT_ENOUGH = "; to give this alone is not enough"


def colliding(job: Job, airs: dict[str, RoomAir], most: int = MOST) -> Collision | None:
    """The rules of a job that cannot all hold; None if a plan exists or it is not known that none does."""
    causes, most = causes_of(job), min(most, max(LEAST, MOST_STEPS // max(1, len(job.steps))))

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
        looked = len(found.causes) <= TOLD and len(job.steps) <= STEPS_GIVEN
        gives = [_give(smallest(left, cause, possible)) if looked else "" for cause in found.causes]
        told += [_head(found, again=bool(told)), *map(partial(_member, left), found.causes, gives), *_foot(found)]
        if not looked or not found.irreducible or any(give != NOT_ENOUGH for give in gives):
            break
        left = without(left, found.causes[0])
    else:
        told.append("More rules than these collide.")
    return tuple(told)


def _head(found: Collision, again: bool) -> str:
    count = len(found.causes)
    these = "This rule cannot be kept:" if count == 1 else f"These {count} rules cannot all be kept:"
    return f"With the first of them given: {these[0].lower()}{these[1:]}" if again else these


def _foot(found: Collision) -> tuple[str, ...]:
    if found.irreducible:
        return ()
    return ("It is not certain in the time that all of these are needed for the collision.",)


def _give(smallest_way: str | None) -> str:
    return NOT_ENOUGH if smallest_way is None else f"; give: {smallest_way}"


def _member(job: Job, cause: Cause, give: str) -> str:
    where = place_of(job, cause)
    return f"{where}: {said(job, cause)}{give}" if where else f"{said(job, cause)}{give}"
