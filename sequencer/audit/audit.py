"""Every check, one after the other. An empty answer means the plan keeps every rule."""

from __future__ import annotations

from sequencer.air.hourly import RoomAir
from sequencer.audit import (
    behind,
    changing_air,
    closings,
    disturbing,
    following,
    hours,
    house,
    left_alone,
    limits,
    people,
    states,
)
from sequencer.audit.site import Site, Times
from sequencer.terms.job import Job

CHECKS = (changing_air, hours, following, states, closings, disturbing, people, limits, house, left_alone, behind)
"""One module a matter; each has `broken(site)`, which yields a sentence for every rule a plan breaks."""


class BrokenPlan(AssertionError):
    """The audit found a plan to break rules: a fault of the program, never of the files."""


def audit(job: Job, airs: dict[str, RoomAir], times: Times) -> tuple[str, ...]:
    """The rules a plan breaks, in sentences; none if it is sound."""
    missing = [step.id for step in job.steps if step.id not in times.pieces]
    if missing:
        return tuple(f"{id} has no time" for id in missing)
    site = Site(job, airs, times)
    return tuple(sentence for check in CHECKS for sentence in check.broken(site))
