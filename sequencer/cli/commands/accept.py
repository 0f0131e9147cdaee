"""`accept`: the plan becomes the one people were told."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, INTERRUPTED, UNDECIDED, UNPROVEN, WRONG, say
from sequencer.cli.ask import ask, somebody_there
from sequencer.cli.give import give
from sequencer.cli.planned import no_order_fits, tell
from sequencer.plan import Plan

MEANWHILE = "another plan was accepted meanwhile; nothing is written, accept again"


def run(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_job
    from sequencer.files.told import read_told, texts_of
    from sequencer.files.written import folder_of
    from sequencer.planning import NoOrderFits, plan_of
    from sequencer.views.against_told import accepted_as_json, against_told, given_up, kept_recipes, moves_told

    path = Path(arguments.job)
    folder = folder_of(path)
    job = read_job(path, arguments.today, new_recipes=arguments.new_recipes)
    kept = read_told(folder, job.name)
    if (kept.told.number if kept else 0) != (job.told.number if job.told else 0):
        say(MEANWHILE)
        return WRONG
    try:
        plan = plan_of(job, arguments.effort, tell)
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    if plan.interrupted:
        say("interrupted; nothing is accepted")
        return INTERRUPTED
    told = [*(against_told(plan) or ["nobody was told anything so far"]), *given_up(plan), *kept_recipes(plan)]
    give(accepted_as_json(plan) if arguments.json else "".join(f"{text}\n" for text in told), arguments)
    if arguments.dry_run:
        say("would make this the plan people were told")
        return _proven(plan)
    if moves_told(plan) and not arguments.yes and not agreed():
        say("nothing is accepted; people were told otherwise: look at plan, then accept --yes")
        return UNDECIDED
    from sequencer.desk.accepted import ToldMeanwhile, accept

    try:
        fresh = accept(folder, plan, kept, texts_of(folder, job, None if arguments.new_recipes else kept))
    except ToldMeanwhile:
        say(MEANWHILE)
        return WRONG
    say("this is the plan people were told" if fresh else "people were told just this already")
    return _proven(plan)


def agreed() -> bool:
    """What a person at the terminal says; nobody is taken to have said yes."""
    return somebody_there() and ask("tell people this instead", "no", "they were told otherwise", _yes_or_no) == "yes"


def _yes_or_no(answer: str) -> list[str]:
    return [] if answer in ("yes", "no") else ["write yes or no"]


def _proven(plan: Plan) -> int:
    if plan.proven:
        return DONE
    say("stopped before proof: a shorter plan is not ruled out")
    return UNPROVEN
