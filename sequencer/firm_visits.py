"""Firm visits stand though work in front of them ends within their cushion: that is what a cushion is there for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from sequencer.causes.no_plan import NoOrderFits
from sequencer.plan import Plan, Plans
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job

P = TypeVar("P", Plan, Plans)
Steps = Mapping[str, frozenset[str]]
"""Steps of firm visits, by job."""


def kept(jobs: Sequence[Job], made: Callable[[list[Job]], P]) -> P:
    """What `made` makes of jobs, firm visits given up only where using cushions up does not help.

    All cushions before firm visits are used up then, and of these, once more, only those that have to be.
    """
    first = made(list(jobs))
    used: Steps = {
        job.name: frozenset(b.step for b in job.bookings) & {h.listener.id for h in _cushioned(job)} for job in jobs
    }
    if not _count(used) or not _count(_given_up(jobs, first)) or first.interrupted:
        return first
    plans, many = first, _count(_given_up(jobs, first))
    try:
        again, used = _using_up(jobs, made, used)
        plans = again if _count(_given_up(jobs, again)) < many else first
        needed = {name: steps & _within_cushion(jobs, again)[name] for name, steps in used.items()}
        if plans is again and needed != used:
            again, left = _using_up(jobs, made, needed)
            plans = again if left == needed and _count(_given_up(jobs, again)) < many else plans
    except NoOrderFits:
        pass
    return plans


def _using_up(jobs: Sequence[Job], made: Callable[[list[Job]], P], used: Steps) -> tuple[P, Steps]:
    """The plans without these cushions; a visit that is given up even then has its own again."""
    while True:
        plans = made([replace(job, cushion_used=used[job.name]) for job in jobs])
        left = {name: steps - _given_up(jobs, plans)[name] for name, steps in used.items()}
        if left == used:
            return plans, used
        used = left


def _cushioned(job: Job) -> Iterator[Hearing]:
    """The work of others that steps are kept a cushion behind."""
    for hearing in hearings(job):
        trade = job.trades[hearing.listener.trade]
        if trade.cushion and hearing.giver.trade != trade.name:
            yield hearing


def _within_cushion(jobs: Sequence[Job], plans: Plan | Plans) -> Steps:
    """The steps that come less than their cushion behind the work of others."""
    found = {}
    for job in jobs:
        plan = _plan_of(job, plans)
        found[job.name] = frozenset(
            h.listener.id for h in _cushioned(job) if _minutes_behind(job, plan, h) < _cushion(job, h)
        )
    return found


def _cushion(job: Job, hearing: Hearing) -> int:
    return job.trades[hearing.listener.trade].cushion


def _minutes_behind(job: Job, plan: Plan, hearing: Hearing) -> int:
    """How much working time of the listener's trade lies between work that is ready and the listener's start [min]."""
    giver, start = plan.step(hearing.giver.id), plan.step(hearing.listener.id).start
    wait = hearing.wait
    ready = giver.end if wait is None else next(one.at for one in giver.ready if one.purpose == wait.purpose)
    days = job.trades[hearing.listener.trade].days
    return sum(max(0, min(closes, start) - max(opens, ready)) for day in days for opens, closes in day.spans)


def _given_up(jobs: Sequence[Job], plans: Plan | Plans) -> Steps:
    return {job.name: frozenset(one.step for one in _plan_of(job, plans).released) for job in jobs}


def _plan_of(job: Job, plans: Plan | Plans) -> Plan:
    return plans.of(job.name) if isinstance(plans, Plans) else plans


def _count(steps: Steps) -> int:
    return sum(map(len, steps.values()))
