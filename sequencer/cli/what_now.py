"""What the commands share that plan again after something happened."""

from __future__ import annotations

import argparse

from sequencer.cli import DONE, UNPROVEN, say
from sequencer.cli.give import give
from sequencer.cli.planned import tell
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
    if found.plan.proven:
        return DONE
    say("stopped before proof: a shorter plan is not ruled out")
    return UNPROVEN
