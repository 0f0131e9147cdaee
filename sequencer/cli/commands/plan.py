"""`plan`: the plan as a site diary, or room by room; of one job, or of the jobs of a folder together."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.answers.choice import Choice
from sequencer.cli import WRONG, say
from sequencer.cli.planned import is_dumb, with_plan
from sequencer.cli.planned_several import holds_jobs, with_plans
from sequencer.plan import Plan, Plans
from sequencer.terms.job import Job


def run(arguments: argparse.Namespace) -> int:
    if holds_jobs(arguments):
        if arguments.new_recipes:
            say("--new-recipes is about what people were told of one job; name its folder")
            return WRONG
        return with_plans(arguments, lambda plans, choice: _of_several(arguments, plans, choice), arguments.first)
    if arguments.first is not None:
        say("--first chooses among the jobs of a folder; name the folder they stand in")
        return WRONG
    return with_plan(arguments, lambda plan: _of_one(arguments, plan), _job(arguments))


def _job(arguments: argparse.Namespace) -> Job | None:
    """The job with recipe texts as they stand, where that is asked for; else it is read as usual."""
    if not arguments.new_recipes:
        return None
    from sequencer.files import read_job

    return read_job(Path(arguments.job), arguments.today, new_recipes=True)


def _of_one(arguments: argparse.Namespace, plan: Plan) -> str:
    plain = arguments.plain or is_dumb()
    if arguments.json:
        from sequencer.views.as_json import plan_as_json

        return plan_as_json(plan)
    if arguments.rooms:
        from sequencer.views.rooms_table import rooms_page, rooms_plain

        return rooms_plain((plan,)) if plain else rooms_page((plan,))
    if plain:
        from sequencer.views.plain import plain_diary

        return plain_diary(plan)
    if arguments.wide:
        from sequencer.views.wide import wide_diary

        return wide_diary(plan)
    from sequencer.views.diary import diary

    return diary(plan)


def _of_several(arguments: argparse.Namespace, plans: Plans, choice: Choice | None) -> str:
    from sequencer.views.plans import plans_as_json, plans_page, plans_plain, plans_rooms

    plain = arguments.plain or is_dumb()
    if arguments.json:
        return plans_as_json(plans, choice)
    if arguments.rooms:
        return plans_rooms(plans, choice, plain)
    return plans_plain(plans, choice) if plain else plans_page(plans, choice, arguments.wide)
