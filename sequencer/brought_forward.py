"""A step that brings other air, brought forward: a plan is also tried that is done with it as soon as can be."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from sequencer.air.rooms import airs
from sequencer.network.ahead import ahead
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.part import leading_to
from sequencer.solve import NoAnswer, solve
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.writeup import times_of

EFFORT = 0.2
"""Limit of asking how soon such a step can be done, as a factor."""

T = TypeVar("T")
Ends = dict[str, Minute]


def brought_forward(
    job: Job, ends: Ends, best: T, plan_by: Callable[[Ends], T | None], better: Callable[[T, T], bool]
) -> T:
    """The best of a plan with these ends of steps that bring other air, and of plans that are done with them sooner.

    `plan_by`: a plan done with these steps by moments of which the air is taken to change; None if there is none.
    """
    for sooner in _sooner(job, ends):
        found = plan_by(sooner)
        if found is not None and better(found, best):
            best = found
    return best


def _sooner(job: Job, ends: Ends) -> Iterator[Ends]:
    """Moments to try: as soon as the steps can be done if nothing else matters, and halfway there."""
    soonest = {id: min(_soonest(job, id), end) for id, end in ends.items()}
    if soonest != ends:
        yield soonest
        yield {id: (soonest[id] + end) // 2 for id, end in ends.items()}


def _soonest(job: Job, id: str) -> Minute:
    """The first end of a step that its own work and what leads up to it allow, in the air before it."""
    cold = job.with_air_from({step: job.horizon for switch in job.switches for step in switch.steps})
    part = leading_to(ahead(build(Case(cold, airs(cold)))), id)
    if id not in part.tasks:
        return job.horizon
    try:
        return times_of(part, solve(part, EFFORT)).pieces[id][-1][1]
    except NoAnswer:
        return job.horizon
