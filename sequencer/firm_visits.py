"""Firm visits stand though work in front of them ends within their cushion: that is what a cushion is there for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import combinations, islice
from typing import TypeVar, cast

from sequencer.causes.no_plan import NoOrderFits
from sequencer.plan import Plan, Plans
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job

P = TypeVar("P", Plan, Plans)
Steps = Mapping[str, frozenset[str]]
"""Steps of firm visits, by job."""

OTHERS = 6
"""Sets of visits tried at most that might keep their cushions instead. A matter of speed alone."""


def kept(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], tidy: bool = True) -> P:
    """What `made` makes of jobs, firm visits given up only where using cushions up does not help.

    All cushions before firm visits are used up then, and of these, once more, only those that have to be. Which these
    are is asked of plans that are made for their hand-over alone; `made` makes these without `tidy`. Fewer visits than
    with no cushion at all are never given up: only as few are called the fewest.
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
        bare = made(_without(jobs, used), False)
    except NoOrderFits:
        return made(list(jobs), tidy)
    try:
        plans, used = _using_up(jobs, made, bare, used)
        if plans.interrupted:
            return plans
        if _count(used) and _more_stand(jobs, made, plans, certain):
            return _fewest(jobs, _as_few(jobs, made, tidy, plans, used), bare)
    except NoOrderFits:
        pass
    return _fewest(jobs, made(list(jobs), tidy), bare)


def _fewest(jobs: Sequence[Job], plans: P, bare: P) -> P:
    """The plans, not said to give up the fewest firm visits where without any cushion fewer are given up."""
    if _count(_given_up(jobs, plans)) <= _count(_given_up(jobs, bare)):
        return plans
    return cast(P, _fewest_found(plans))


def _fewest_found(plans: Plan | Plans) -> Plan | Plans:
    if isinstance(plans, Plan):
        return replace(plans, fewest_released=False)
    return replace(plans, plans=tuple(replace(plan, fewest_released=not plan.released) for plan in plans.plans))


def _using_up(jobs: Sequence[Job], made: Callable[[list[Job], bool], P], bare: P, used: Steps) -> tuple[P, Steps]:
    """The plans without these cushions (`bare`); a visit that is given up even then has its own again.

    Where more visits have to be given up then than without any cushion, other visits keep theirs instead.
    """
    plans = bare
    fewest, left = _count(_given_up(jobs, plans)), used
    while _count(left) and not plans.interrupted and _both(left, _given_up(jobs, plans)):
        left = _less(left, _given_up(jobs, plans))
        plans = made(_without(jobs, left), False) if _count(left) else plans
    tried = [used, left]
    for gone in islice(_sets(used, fewest), OTHERS):
        settled = _count(left) and _count(_given_up(jobs, plans)) <= fewest
        others = _less(used, gone)
        if settled or plans.interrupted or others in tried or not _count(others):
            continue
        again = made(_without(jobs, others), False)
        better = not _count(left) or _count(_given_up(jobs, again)) < _count(_given_up(jobs, plans))
        if better and not _both(others, _given_up(jobs, again)):
            plans, left = again, others
    return plans, left


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
            if not _both(needed, gone) and _count(gone) <= _count(_given_up(jobs, plans)):
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


def _sets(steps: Steps, count: int) -> Iterator[Steps]:
    """The sets of so many of some steps."""
    every = [(name, id) for name, ids in sorted(steps.items()) for id in sorted(ids)]
    for chosen in combinations(every, count):
        yield {job: frozenset(id for name, id in chosen if name == job) for job in steps}


def _less(steps: Steps, others: Steps) -> Steps:
    """The steps that are not among others."""
    return {name: ids - others[name] for name, ids in steps.items()}


def _both(steps: Steps, others: Steps) -> bool:
    """Whether some steps are among others too."""
    return any(ids & others[name] for name, ids in steps.items())


def _count(steps: Steps) -> int:
    return sum(map(len, steps.values()))
