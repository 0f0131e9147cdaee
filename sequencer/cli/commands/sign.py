"""`sign`: the sheet for the door."""

from __future__ import annotations

import argparse
from datetime import date

from sequencer.cli.on_site import with_day
from sequencer.plan import Plan
from sequencer.terms.job import Job


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.on_site.house_today import notice
    from sequencer.views.on_site.days import Day
    from sequencer.views.on_site.sign import sign, sign_as_json

    def text(job: Job, plan: Plan, on: date) -> str:
        day = Day(plan, on)
        told = notice(job, plan, (day.start, day.end))
        return sign_as_json(plan, on, told) if arguments.json else sign(plan, on, told)

    return with_day(arguments, text)
