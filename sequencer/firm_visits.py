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


def kept(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], tidy: bool = True) -> P:
    """What `made` makes of jobs, firm visits given up only where using cushions up does not help.

    All cushions before firm visits are used up then, and of these, once more, only those that have to be. Which these
    are is asked of plans that are made for their hand-over alone; `made` makes these without `tidy`.
    """
    used: Steps = {
        job.name: frozenset(b.step for b in job.bookings) & {h.listener.id for h in _cushioned(job)} for job in jobs
    }
    if not _count(used):
        return made(list(jobs), tidy)
    try:
        return made([replace(job, visits_stand=True) for job in jobs], tidy)
    except NoOrderFits as none:
        certain = none.certain
    try:
        plans, used = _using_up(jobs, made, used)
        if plans.interrupted:
            return plans
        if _count(used) and _more_stand(jobs, made, plans, certain):
            return _as_few(jobs, made, tidy, plans, used)
    except NoOrderFits:
        pass
    return made(list(jobs), tidy)


def _using_up(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], used: Steps) -> tuple[P, Steps]:
    """The plans without these cushions; a visit that is given up even then has its own again."""
    while True:
        plans = made(_without(jobs, used), False)
        left = {name: steps - _given_up(jobs, plans)[name] for name, steps in used.items()}
        if left == used or not _count(left):
            return plans, left
        used = left


def _more_stand(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], plans: P, certain: bool) -> bool:
    """Whether plans give up fewer firm visits than with every cushion kept; `certain`: then some have to be."""
    if certain and not _count(_given_up(jobs, plans)):
        return True
    try:
        return _count(_given_up(jobs, plans)) < _count(_given_up(jobs, made(list(jobs), False)))
    except NoOrderFits:
        return True


def _as_few(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], tidy: bool, plans: P, used: Steps) -> P:
    """The plans with no more cushions used up than those at hand use up, if as many firm visits stand then."""
    needed = {name: steps & _within_cushion(jobs, plans)[name] for name, steps in used.items()}
    if needed != used:
        try:
            again = made(_without(jobs, needed), tidy)
            gone = _given_up(jobs, again)
            cushioned = any(steps & gone[name] for name, steps in needed.items())
            if not cushioned and _count(gone) <= _count(_given_up(jobs, plans)):
                return again
        except NoOrderFits:
            pass
    return made(_without(jobs, used), tidy)


def _without(jobs: Sequence[Job], used: Steps) -> list[Job]:
    """The jobs with these cushions used up."""
    return [replace(job, cushion_used=used[job.name]) for job in jobs]


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
