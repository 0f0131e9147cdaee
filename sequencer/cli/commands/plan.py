"""`plan`: the plan as a site diary."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli.planned import is_dumb, with_plan
from sequencer.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    def text(plan: Plan) -> str:
        if arguments.json:
            from sequencer.views.as_json import plan_as_json

            return plan_as_json(plan)
        if arguments.plain or is_dumb():
            from sequencer.views.plain import plain_diary

            return plain_diary(plan)
        if arguments.wide:
            from sequencer.views.wide import wide_diary

            return wide_diary(plan)
        from sequencer.views.diary import diary

        return diary(plan)

    if arguments.new_recipes:
        from sequencer.files import read_job

        return with_plan(arguments, text, read_job(Path(arguments.job), arguments.today, new_recipes=True))
    return with_plan(arguments, text)
