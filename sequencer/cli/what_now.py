"""What the commands share that plan again after something happened."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.cli import DONE, UNDECIDED, UNPROVEN, say
from sequencer.cli.give import give
from sequencer.cli.planned import Refused, no_order_fits, refuse, tell
from sequencer.files.book_line import line_text
from sequencer.files.book_words import fact_words
from sequencer.plan import Plan
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.answers.what_now.moves import Before


def line_of(zone: ZoneInfo, fact: Fact) -> str:
    """A fact as its line in the book."""
    return line_text(fact.number, fact.happened, fact.written, fact_words(fact, zone), zone)


def known_before(arguments: argparse.Namespace, job: Job) -> Callable[[], Before]:
    """The plan that facts are set against, worked out when it is asked for, and once."""

    @cache
    def before() -> Before:
        from sequencer.answers.what_now.moves import known

        return known(job, arguments.effort, tell)

    return before


def planned_again(arguments: argparse.Namespace, doing: Callable[[], int]) -> int:
    """Does what plans again; says so where it is refused, or where no order of work fits. Gives the exit code."""
    from sequencer.planning import NoOrderFits

    try:
        return doing()
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    except Refused as refused:
        return refuse(refused)


def tell_what_now(
    arguments: argparse.Namespace, job: Job, changed: Job, facts: tuple[Fact, ...], before: Callable[[], Before]
) -> int:
    """Plans a job with other facts, gives what moves and whom to call; gives the exit code. NoOrderFits."""
    from sequencer.answers.what_now.answer import what_now
    from sequencer.views.what_now.as_json import what_now_as_json
    from sequencer.views.what_now.text import what_now_text

    found = what_now(job, changed, facts, before(), arguments.effort, tell)
    give(what_now_as_json(found) if arguments.json else what_now_text(found), arguments)
    moved = found.told and (found.plan.finish != found.before.finish or any(visit.moves for visit in found.visits))
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
