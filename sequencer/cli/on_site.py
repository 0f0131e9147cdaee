"""Flags of the commands for a day on site, and what they share."""

from __future__ import annotations

import argparse

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import date

    from sequencer.plan import Plan
    from sequencer.terms.job import Job

def asked(parser: argparse.ArgumentParser) -> None:
    """What `may` is asked."""
    text = "words that name a step (grout floor), or a verb and a surface (walk floor)"
    parser.add_argument("word", nargs="+", metavar="WORD", help=text)
    parser.add_argument("--at", metavar="HOUR", help="at this hour of the day: 14:15; default: now, with --today 08:00")


def with_day(
    arguments: argparse.Namespace, view: Callable[[Job, Plan, date], str]
) -> int:
    """Plans the job, and gives what a view makes of it on the day it is looked at."""
    from pathlib import Path

    from sequencer.cli.planned import tell, with_plan
    from sequencer.files import read_job
    from sequencer.planning import settled

    job = settled(read_job(Path(arguments.job), arguments.today), arguments.effort, tell)

    def text(plan: Plan) -> str:
        from sequencer.views.clock import Clock

        return view(job, plan, Clock(plan.zone).day(job.now if job.today is None else job.today))

    return with_plan(arguments, text, job)
