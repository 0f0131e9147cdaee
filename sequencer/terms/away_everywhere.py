"""Somebody several jobs share who is away is away from all of them, whichever site book says so."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

from sequencer.terms.facts_of_people import away
from sequencer.terms.job import Job


def away_everywhere(jobs: Sequence[Job]) -> list[Job]:
    """The jobs with what the others' site books say of people they share; who is late to one is late to that one."""
    return [reduce(_told_by, (other for other in jobs if other.name != job.name), job) for job in jobs]


def _told_by(job: Job, other: Job) -> Job:
    absences = (fact for fact in other.facts if fact.kind == "away" and fact.span is not None)
    return reduce(away, (fact for fact in absences if fact.about in job.shared & other.shared & {*job.trades}), job)
