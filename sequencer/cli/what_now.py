"""What the commands share that plan again after something happened."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, UNDECIDED, UNPROVEN, say
from sequencer.cli.give import give
from sequencer.cli.planned import tell
from sequencer.plan import Plan
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.told import Told


def tell_what_now(arguments: argparse.Namespace, job: Job, changed: Job, facts: tuple[Fact, ...], before: Told) -> int:
    """Plans a job with other facts, gives what moves and whom to call; gives the exit code. NoOrderFits."""
    from sequencer.answers.what_now.answer import what_now
    from sequencer.views.what_now.as_json import what_now_as_json
    from sequencer.views.what_now.text import what_now_text

    found = what_now(job, changed, facts, before, arguments.effort, tell)
    give(what_now_as_json(found) if arguments.json else what_now_text(found), arguments)
    moved = found.told and (found.plan.finish != before.finish or any(visit.moves for visit in found.visits))
    written = hasattr(arguments, "yes") and not arguments.dry_run
    if moved and written and not _replaced(arguments, found.moves.job, found.plan):
        return UNDECIDED
    if found.plan.proven:
        return DONE
    say("stopped before proof: a shorter plan is not ruled out")
    return UNPROVEN


def _replaced(arguments: argparse.Namespace, job: Job, plan: Plan) -> bool:
    """Whether the new plan has become the one people were told: only if somebody says so."""
    from sequencer.cli.commands.accept import agreed
    from sequencer.desk.accepted import ToldMeanwhile, accept
    from sequencer.files.told import read_told, texts_of
    from sequencer.files.written import folder_of

    if not arguments.yes and not agreed():
        say("people were told otherwise; once they know, --yes or accept makes this the plan they were told")
        return False
    folder = folder_of(Path(arguments.job))
    kept = read_told(folder, job.name)
    try:
        accept(folder, plan, kept, texts_of(folder, job, kept))
    except ToldMeanwhile:
        say("another plan was accepted meanwhile; look at plan, then accept")
        return False
    say("this is the plan people were told now")
    return True
