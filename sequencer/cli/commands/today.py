"""`today`: the day on site."""

from __future__ import annotations

import argparse
from datetime import date

from sequencer.cli.on_site import with_day
from sequencer.plan import Plan
from sequencer.terms.job import Job


def run(arguments: argparse.Namespace) -> int:
    from sequencer.answers.on_site.calls import calls
    from sequencer.answers.on_site.house_today import look_ins, services_off
    from sequencer.answers.on_site.last_start import last_starts
    from sequencer.answers.on_site.site import on_site
    from sequencer.answers.on_site.waiting_hour import waiting_hours
    from sequencer.views.on_site.days import Day
    from sequencer.views.on_site.today import OnTheDay, today
    from sequencer.views.on_site.today_json import today_as_json

    def text(job: Job, plan: Plan, on: date) -> str:
        day = Day(plan, on)
        span, at = (day.start, day.end), on_site(job, plan)
        found = OnTheDay(
            last_starts(at, plan, span),
            waiting_hours(job, plan, span, lambda: at),
            calls(job, plan, max(day.start, job.now)),
            look_ins(job, plan, span),
            services_off(job, plan, span),
        )
        return today_as_json(plan, on, found) if arguments.json else today(plan, on, found)

    return with_day(arguments, text)
