"""`week`: the next five working days."""

from __future__ import annotations

import argparse
from datetime import date

from sequencer.cli.on_site import with_day
from sequencer.plan import Plan
from sequencer.terms.job import Job


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.on_site.calls import calls
    from sequencer.views.on_site.week import week, week_as_json

    def text(job: Job, plan: Plan, on: date) -> str:
        due = calls(job, plan, job.now if job.today is None else max(job.now, job.today))
        return week_as_json(plan, on, due) if arguments.json else week(plan, on, due)

    return with_day(arguments, text)
