"""Somebody is needed by several jobs at once: what each job could have by itself, and what comes of each coming first.

Every way is planned; none is chosen here.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from sequencer.answers.chain import chain
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan, Plans
from sequencer.planning import NoOrderFits, plans_of, settled, timed
from sequencer.terms.job import Job

AGAIN = 0.3
"""Effort of the plans with one job in front, as a part of the effort asked for."""

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Held:
    """A job that waits for somebody at another: how long in all on the way to its hand-over [min]."""

    job: str
    trade: str
    minutes: int


@dataclass(frozen=True)
class Choice:
    """Plans in which not every job has what it could have by itself.

    `later`: the jobs that hand over later than by themselves; `held`: for whom they wait. `ways`: the plans with each
    job in front. `must_decide`: a promise is broken that would be kept, or broken less, with its job in front.
    """

    plans: Plans
    later: tuple[str, ...]
    held: tuple[Held, ...]
    ways: tuple[Plans, ...]

    @property
    def must_decide(self) -> bool:
        """True if which promise is broken is a matter of who comes first."""
        return any(way.first and way.of(way.first).days_late < self.plans.of(way.first).days_late for way in self.ways)


def choice(jobs: Sequence[Job], plans: Plans, effort: float = 1.0, told: Tell = lambda _: None) -> Choice | None:
    """The choice there is where people are short; None where every job has what it could have by itself."""
    alone = [settled(replace(job, beside=()), effort, told) for job in sorted(jobs, key=lambda job: job.name)]
    later = [job for job in alone if _later(job, plans.of(job.name))]
    if not later:
        return None
    held = [one for job in later for one in _held(job, plans.of(job.name))]
    ways = []
    for number, job in enumerate(alone, 1):
        told(f"planning with one job in front at a time: {number} of {len(alone)}")
        try:
            ways.append(plans_of(alone, AGAIN * effort, told, first=job.name, tidy=False))
        except NoOrderFits:
            continue
        if ways[-1].interrupted:
            raise KeyboardInterrupt
    best = tuple(_best(alone, way.first, (way, plans, *ways)) for way in ways if way.first)
    return Choice(plans, tuple(job.name for job in later), tuple(held), best)


def _best(jobs: Sequence[Job], first: str, known: Sequence[Plans]) -> Plans:
    """Of all plans at hand those that are best for a job in front: none is told worse than another way has it."""
    half_days = {job.name: job.half_days for job in jobs}

    def worth(plans: Plans) -> tuple[int, int, int]:
        over = {plan.job: bisect_right(half_days[plan.job], plan.finish) for plan in plans.plans}
        return over[first], plans.days_late, sum(over.values())

    return replace(min(known, key=worth), first=first)


def _later(job: Job, plan: Plan) -> bool:
    """True if a plan hands over in a later half-day than its job might by itself."""
    return plan.alone is not None and bisect_right(job.half_days, plan.finish) > bisect_right(job.half_days, plan.alone)


def _held(job: Job, plan: Plan) -> list[Held]:
    """For whom hand-over waits, by the chain that leads to it."""
    waits: dict[str, int] = {}
    for link in chain(timed(job, plan), HAND_OVER):
        if link.cause is not None and link.cause.kind == "elsewhere":
            waits[link.cause.of] = waits.get(link.cause.of, 0) + link.until - link.since
    return [Held(job.name, trade, minutes) for trade, minutes in sorted(waits.items(), key=lambda one: -one[1])]
