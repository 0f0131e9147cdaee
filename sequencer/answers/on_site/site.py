"""A job beside the times of its plan, as it stands on site."""

from __future__ import annotations

from sequencer.plan import Plan
from sequencer.planning import timed
from sequencer.terms.job import Job
from sequencer.writeup.timed import Timed


def on_site(job: Job, plan: Plan) -> Timed:
    """The job with the times of its plan."""
    return timed(as_planned(job, plan), plan)


def as_planned(job: Job, plan: Plan) -> Job:
    """The job without the firm visits its plan gave up."""
    return job.with_bookings(tuple(one for one in job.bookings if plan.step(one.step).start == one.at))
