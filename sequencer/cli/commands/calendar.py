"""`calendar`: the whole plan as one calendar file, or the plans of all jobs of a folder."""

from __future__ import annotations

import argparse

from sequencer.cli.planned import with_plan
from sequencer.cli.planned_several import holds_jobs, with_plans
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    def octets(*plans: Plan) -> bytes:
        from sequencer.views.calendar import calendar

        return calendar(*plans)

    if holds_jobs(arguments):
        return with_plans(arguments, lambda plans, choice: octets(*plans.plans))
    return with_plan(arguments, octets)
