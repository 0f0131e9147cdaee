"""A job beside the times of its plan, as it stands on site."""

from __future__ import annotations

from dataclasses import replace

from sequencer.network import elsewhere
from sequencer.plan import Plan
from sequencer.planning import timed
from sequencer.terms.job import Job
from sequencer.writeup.timed import Timed


def on_site(job: Job, plan: Plan) -> Timed:
    """The job with the times of its plan; people it shares are where they are in the plans of other jobs."""
    alone = timed(as_planned(job, plan), plan)
    if not plan.elsewhere:
        return alone
    rules = (*alone.network.rules, *elsewhere.rules(job, plan.elsewhere))
    return Timed(alone.case, replace(alone.network, rules=rules), alone.times)


def as_planned(job: Job, plan: Plan) -> Job:
    """The job without the firm visits its plan gave up."""
    return job.with_bookings(tuple(one for one in job.bookings if plan.step(one.step).start == one.at))
