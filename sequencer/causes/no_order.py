"""No order fits: which rules collide, where each is written, and the smallest thing to give."""

from __future__ import annotations

from functools import partial

from sequencer.air.hourly import RoomAir
from sequencer.air.rooms import airs as airs_of
from sequencer.causes.collide import Collision, Spent, collision
from sequencer.causes.concerned import concerns
from sequencer.causes.give import smallest
from sequencer.causes.listed import causes_of
from sequencer.causes.say import place_of, said
from sequencer.causes.without import without
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import HAND_OVER
from sequencer.solve import Work, fits, pushed_out
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job

EFFORT = 0.5
"""Limit of asking the solver once whether a plan exists [its deterministic seconds]."""

SEARCH_WORK, GIVE_WORK = 5000, 1500
"""Limits of the search for colliding rules, and of the ways to give them [tasks laid and passed]: together some
seconds, however large the job. Measured; a matter of speed alone."""

AT_ONCE = 250
"""The largest model the solver is asked about [tasks laid and passed]."""

LEAST = 10
"""How often each may ask at least, in however large a job."""

SETS = 3
"""Colliding sets told, one after the other, where giving one rule is not enough."""

SUSPECTED = 20
"""Rules told at most of a set that is not narrowed further."""

NOT_ENOUGH = "; to give this alone is not enough"


class _Asker:
    """Asks whether an order of work fits changed jobs, as long as there is work left for it."""

    def __init__(self, job: Job, airs: dict[str, RoomAir], work: int) -> None:
        self.airs, self.work = airs, Work(max(work, LEAST * len(job.steps)), AT_ONCE)
        self.said = [room.air for room in job.rooms]
        self.suspects: frozenset[str] = frozenset()

    def fits(self, job: Job) -> bool | None:
        """Whether an order of work fits a job; None if that is not known. Spent if no work is left."""
        if self.work.left <= 0:
            raise Spent
        airs = self.airs if [room.air for room in job.rooms] == self.said else airs_of(job)
        return fits(build(Case(job, airs)), EFFORT, self.work, self.suspects)


def colliding(
    job: Job, airs: dict[str, RoomAir], work: int = SEARCH_WORK, pushed: frozenset[str] | None = None
) -> Collision | None:
    """The rules of a job that cannot all hold; None if a plan exists or it is not known that none does.

    Those that hold up the steps which orders, waits and windows push out of the calendar are looked at first, and of
    these first without shortest visits: where more hours are given they may leave a rest that is too short for one.
    `work` [tasks laid and passed] limits the search; what collides among what is left then is not narrowed further.
    `pushed`: these steps, where they are known.
    """
    causes, asker = causes_of(job), _Asker(job, airs, work)

    def held(these: frozenset[Cause]) -> bool | None:
        return asker.fits(without(job, *(cause for cause in causes if cause not in these)))

    asker.suspects = _pushed(job, airs) if pushed is None else pushed
    concerned = [cause for cause in causes if concerns(job, cause, asker.suspects)]
    plain = [cause for cause in concerned if cause.kind != "shortest visit"]
    tried = (collision(these, held) for these in (plain, concerned) if these)
    return next((found for found in tried if found), None) or collision(causes, held)


def no_order_fits(job: Job, airs: dict[str, RoomAir], work: int = SEARCH_WORK) -> tuple[str, ...]:
    """Sentences for the reader of the files: the rules that collide, each with its place and what to give.

    Firm visits are left out where no order fits without them either: they are given up before. Where giving one rule is
    never enough other rules collide too: then the first is given and the next set is told.
    `work`: as for `colliding`.
    """
    told: list[str] = []
    asker = _Asker(job, airs, GIVE_WORK)
    free = job.with_bookings(())
    left = free if job.bookings and asker.fits(free) is False else job
    for _ in range(SETS):
        asker.suspects = _pushed(left, airs)
        found = colliding(left, airs, work, asker.suspects)
        if found is None:
            break
        if not found.causes:
            return (*told, "The hours of work and the order of the recipes alone do not fit the calendar.")
        named = found.causes if found.irreducible else found.causes[:SUSPECTED]
        gives = [_give(left, cause, asker) for cause in named]
        told += [_head(found, again=bool(told)), *map(partial(_member, left), named, gives), *_foot(found)]
        if not found.irreducible or any(give != NOT_ENOUGH for give in gives):
            break
        left = without(left, found.causes[0])
    else:
        told.append("More rules than these collide.")
    return tuple(told)


def _pushed(job: Job, airs: dict[str, RoomAir]) -> frozenset[str]:
    return pushed_out(build(Case(job, airs))) - {HAND_OVER}


def _head(found: Collision, again: bool) -> str:
    count = len(found.causes)
    these = "This rule cannot be kept:" if count == 1 else f"These {count} rules cannot all be kept:"
    if not found.irreducible:
        these = f"Some among these {count} rules cannot all be kept, not narrowed further:"
    return f"With the first of them given: {these[0].lower()}{these[1:]}" if again else these


def _foot(found: Collision) -> tuple[str, ...]:
    more = 0 if found.irreducible else len(found.causes) - SUSPECTED
    return (f"And {more} more; what is easiest to give stands first.",) if more > 0 else ()


def _give(job: Job, cause: Cause, asker: _Asker) -> str:
    """What to give of a cause, to follow it in a sentence; nothing where that is not known."""
    answers: list[bool | None] = []

    def possible(changed: Job) -> bool:
        answers.append(asker.fits(changed))
        return answers[-1] is True

    try:
        way = smallest(job, cause, possible)
    except Spent:
        return ""
    if way is None:
        return "" if None in answers else NOT_ENOUGH
    return f"; give: {way.words}"


def _member(job: Job, cause: Cause, give: str) -> str:
    where = place_of(job, cause)
    return f"{where}: {said(job, cause)}{give}" if where else f"{said(job, cause)}{give}"
