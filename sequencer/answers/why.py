"""Why not sooner: the chain back to today, and what each of its causes would save if it alone were gone.

A saving is worked out by planning again on changed inputs: a wait has length 0, a person is free in his hours, an
inspection or a delivery is ready at once, what the house or a room asks for is not asked. Nights and weekends stay.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from sequencer.answers.chain import Link, chain
from sequencer.audit import audit
from sequencer.causes.without import without
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import timed
from sequencer.sooner import NotSooner, Sooner, as_a_plan, sooner
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.writeup.timed import Timed

MOST = 12
"""Causes tried: those that held the longest."""

AGAIN = 0.3
"""Effort of the plan without a cause, as a part of the effort asked for."""

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Saving:
    """What it would save if a cause alone were gone.

    `finish`: hand-over then, in as early a half-day as can be; at the minute a plan has it only if that was asked for.
    `minutes` [min], and `half_days` of the place's working days, that it is earlier: 0 if hand-over stays in its
    half-day. `sure` False: a hand-over earlier than that was neither found nor ruled out.
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

    Without `to_the_minute` savings are right in half-days alone, which takes far less time.
    """
    job = _as_planned(job, plan)
    links = chain(timed(job, plan), of)
    causes = _longest(links)
    savings: dict[Cause, Saving] = {}
    found: dict[Cause, Sooner] = {}
    for number, cause in enumerate(causes[:most], 1):
        told(f"planning again without one thing at a time: {number} of {min(most, len(causes))}")
        try:
            found[cause] = sooner(without(job, cause), plan.finish, AGAIN * effort)
            if to_the_minute:
                found[cause] = as_a_plan(without(job, cause), plan.finish, AGAIN * effort, found[cause])
            savings[cause] = _saving(job, plan, found[cause])
        except NotSooner as none:
            savings[cause] = Saving(plan.finish, 0, 0, none.certain)
    best = min(found, key=lambda cause: _half_day(job, found[cause].finish), default=None)
    then = _new_link(found[best].timed(), of, links) if best else None
    return WhyNot(of, links, savings, best, then, max(0, len(causes) - most))


def _as_planned(job: Job, plan: Plan) -> Job:
    """The job without the firm visits its plan gave up; what lies behind may be followed late where it is so there."""
    job = job.with_bookings(tuple(b for b in job.bookings if plan.step(b.step).start == b.at))
    if not job.past:
        return job
    times = timed(job, plan)
    return replace(job, followed_late=bool(audit(job, times.case.airs, times.times)))


def _longest(links: tuple[Link, ...]) -> list[Cause]:
    """The causes of a chain, those that held longest first."""
    held: dict[Cause, int] = {}
    for link in links:
        if link.cause is not None:
            held[link.cause] = held.get(link.cause, 0) + link.until - link.since
    return sorted(held, key=lambda cause: -held[cause])


def _saving(job: Job, plan: Plan, sooner: Sooner) -> Saving:
    between = job.half_days[_half_day(job, sooner.finish) : _half_day(job, plan.finish)]
    working = sum(any(start <= moment < end for start, end in job.working_days) for moment in between)
    return Saving(sooner.finish, plan.finish - sooner.finish, working, sooner.proven)


def _half_day(job: Job, moment: Minute) -> int:
    """The number of half-days that have begun by a moment."""
    return sum(start <= moment for start in job.half_days)


def _new_link(sooner: Timed, of: str, known: tuple[Link, ...]) -> Link | None:
    """The first link of a chain in other times that another chain does not have."""
    old = {(link.step, link.by, link.cause) for link in known}
    caused = (link for link in chain(sooner, of) if link.cause)
    return next((link for link in caused if (link.step, link.by, link.cause) not in old), None)
