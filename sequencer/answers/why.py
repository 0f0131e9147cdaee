"""Why not sooner: the chain back to today, and what each of its causes would save if it alone were gone.

A saving is worked out by planning again on changed inputs: a wait has length 0, a person is free in his hours, an
inspection or a delivery is ready at once, what the house or a room asks for is not asked. Nights and weekends stay.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sequencer.answers.chain import Link, chain
from sequencer.causes.without import without
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, can_be_sooner, plan_of, timed
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute

MOST = 12
"""Causes tried: those that held the longest."""

AGAIN = 0.3
"""Effort of the plan without a cause, as a part of the effort asked for."""

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Saving:
    """What it would save if a cause alone were gone.

    `finish`: hand-over then. `minutes` [min], and `half_days` of the place's working days, that it is earlier: 0 if
    hand-over stays in its half-day. `sure` False: an earlier hand-over was neither found nor ruled out.
    """

    finish: Minute
    minutes: int
    half_days: int
    sure: bool = True


@dataclass(frozen=True)
class WhyNot:
    """The chain from `of` (a step's id, or hand-over) back to today, newest first, and the savings by cause.

    `most`: the largest saving's cause, None if nothing saves. `then`: what the chain waits for without it that it did
    not wait for before. `untried`: causes that held for less long than those tried.
    """

    of: str
    links: tuple[Link, ...]
    savings: dict[Cause, Saving]
    most: Cause | None
    then: Link | None
    untried: int

    def saving(self, link: Link) -> Saving | None:
        """What a link's cause would save; None if it has none, or none was tried."""
        return self.savings.get(link.cause) if link.cause else None


def why(
    job: Job,
    plan: Plan,
    of: str = HAND_OVER,
    effort: float = 1.0,
    most: int = MOST,
    told: Tell = lambda _: None,
    to_the_minute: bool = True,
) -> WhyNot:
    """Why a step of a plan, or hand-over, is not sooner. `job`: the job the plan was made of. KeyError for no step.

    Without `to_the_minute` a smaller saving than the largest is right in half-days alone, which takes far less time.
    """
    job = _as_planned(job, plan)
    links = chain(timed(job, plan), of)
    causes = _longest(links)
    savings: dict[Cause, Saving] = {}
    plans: dict[Cause, Plan] = {}
    again = AGAIN * effort
    for number, cause in enumerate(causes[:most], 1):
        told(f"planning again without one thing at a time: {number} of {min(most, len(causes))}")
        changed = without(job, cause)
        sooner = can_be_sooner(changed, plan.finish, effort)
        found = _planned(changed, again, to_the_minute) if sooner else None
        savings[cause] = _saving(job, plan, found) if found else Saving(plan.finish, 0, 0, sooner is False)
        if found is not None:
            plans[cause] = found
    earliest = min((_half_day(job, found.finish) for found in plans.values()), default=0)
    for cause in () if to_the_minute else [c for c, found in plans.items() if _half_day(job, found.finish) == earliest]:
        plans[cause] = _planned(without(job, cause), again, tidy=True) or plans[cause]
        savings[cause] = _saving(job, plan, plans[cause])
    best = max((cause for cause in plans if savings[cause].minutes), key=lambda c: savings[c].minutes, default=None)
    then = _new_link(without(job, best), plans[best], of, links) if best else None
    return WhyNot(of, links, savings, best, then, max(0, len(causes) - most))


def _planned(job: Job, effort: float, tidy: bool) -> Plan | None:
    """The plan of a changed job, None if there is none; one that is not tidy has proven its half-day."""
    try:
        found = plan_of(job, effort, tidy=tidy)
        if not (tidy or found.proven):
            found = plan_of(job, effort)
    except NoOrderFits:
        return None
    if found.interrupted:
        raise KeyboardInterrupt
    return found


def _as_planned(job: Job, plan: Plan) -> Job:
    """The job without the firm visits its plan gave up."""
    return job.with_bookings(tuple(b for b in job.bookings if plan.step(b.step).start == b.at))


def _longest(links: tuple[Link, ...]) -> list[Cause]:
    """The causes of a chain, those that held longest first."""
    held: dict[Cause, int] = {}
    for link in links:
        if link.cause is not None:
            held[link.cause] = held.get(link.cause, 0) + link.until - link.since
    return sorted(held, key=lambda cause: -held[cause])


def _saving(job: Job, plan: Plan, sooner: Plan) -> Saving:
    """Nothing, where only the hour of the same half-day is another."""
    if _half_day(job, sooner.finish) >= _half_day(job, plan.finish):
        return Saving(plan.finish, 0, 0, sooner.proven)
    between = job.half_days[_half_day(job, sooner.finish) : _half_day(job, plan.finish)]
    working = sum(any(start <= moment < end for start, end in job.working_days) for moment in between)
    return Saving(sooner.finish, plan.finish - sooner.finish, working)


def _half_day(job: Job, moment: Minute) -> int:
    """The number of half-days that have begun by a moment."""
    return sum(start <= moment for start in job.half_days)


def _new_link(job: Job, plan: Plan, of: str, known: tuple[Link, ...]) -> Link | None:
    """The first link of a plan's chain that another chain does not have."""
    old = {(link.step, link.by, link.cause) for link in known}
    links = chain(timed(_as_planned(job, plan), plan), of)
    return next((link for link in links if link.cause and (link.step, link.by, link.cause) not in old), None)
