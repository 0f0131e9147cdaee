"""Firm visits that no plan could keep."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.plan import GivenUp
from sequencer.terms.job import Job


def without_given_up(job: Job, released: Iterable[str]) -> tuple[Job, tuple[GivenUp, ...]]:
    """The job without the firm visits of these steps, and these visits by moment."""
    gone = set(released)
    given_up = [GivenUp(b.trade, b.step, b.at, b.place) for b in job.bookings if b.step in gone]
    kept = job.with_bookings(tuple(b for b in job.bookings if b.step not in gone)) if given_up else job
    return kept, tuple(sorted(given_up, key=lambda one: (one.at, one.step)))
