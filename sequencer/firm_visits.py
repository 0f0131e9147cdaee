"""Firm visits stand though work in front of them ends within their cushion: that is what a cushion is there for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TypeVar

from sequencer.plan import Plan, Plans
from sequencer.terms.hearing import hearings
from sequencer.terms.job import Job

P = TypeVar("P", Plan, Plans)
Used = dict[str, frozenset[str]]
"""By job, the steps of firm visits whose cushion is used up."""


def kept(jobs: Sequence[Job], made: Callable[[list[Job]], P]) -> P:
    """What `made` makes of jobs, firm visits given up only where using their cushions up does not help."""
    first = made(list(jobs))
    plans, used = first, {job.name: _cushioned(job, first) for job in jobs}
    while any(used.values()) and not plans.interrupted:
        plans = made([replace(job, cushion_used=used[job.name]) for job in jobs])
        gone = {job.name: _given_up(job, plans) & used[job.name] for job in jobs}
        if not any(gone.values()):
            fewer = sum(len(_given_up(job, plans)) for job in jobs) < sum(len(_given_up(job, first)) for job in jobs)
            return plans if fewer else first
        used = {name: steps - gone[name] for name, steps in used.items()}
    return first


def _cushioned(job: Job, plans: Plan | Plans) -> frozenset[str]:
    """The visits given up that a cushion keeps behind somebody's work."""
    behind = {
        hearing.listener.id
        for hearing in hearings(job)
        if job.trades[hearing.listener.trade].cushion and hearing.giver.trade != hearing.listener.trade
    }
    return _given_up(job, plans) & behind


def _given_up(job: Job, plans: Plan | Plans) -> frozenset[str]:
    plan = plans.of(job.name) if isinstance(plans, Plans) else plans
    return frozenset(one.step for one in plan.released)
