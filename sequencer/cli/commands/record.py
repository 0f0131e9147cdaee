"""`done grout walls --at "Tue 16:30"` and every other fact: into the site book at once, then what moves."""

from __future__ import annotations

import argparse
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.cli import DONE, UNPROVEN, WRONG, say
from sequencer.cli.fact_told import fact_told
from sequencer.cli.give import give
from sequencer.cli.planned import Refused, no_order_fits, tell
from sequencer.files import read_job
from sequencer.files.book import book_beside
from sequencer.files.book_line import line_text
from sequencer.files.book_words import fact_words
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.with_facts import with_facts

TYPE_CHECKING = False
if TYPE_CHECKING:
    from sequencer.answers.moves import Moves


def run(arguments: argparse.Namespace) -> int:
    path = Path(arguments.job)
    job = read_job(path, arguments.today)
    zone = ZoneInfo(job.zone)
    try:
        fact = fact_told(job, arguments.command, " ".join(arguments.word), arguments.at, arguments.today)
    except Refused as refused:
        say(str(refused))
        return WRONG
    if arguments.dry_run:
        say(f"would write: {line_of(zone, fact)}")
        return tell_moves(arguments, job, with_facts(job, [fact]), (fact,))
    from sequencer.desk.record import record

    recorded = record(book_beside(path), zone, fact, arguments.at is not None)
    if not recorded.fresh:
        say(f"stands already: {line_of(zone, recorded.fact)}")
        return DONE
    instead = f"; it takes the place of fact {recorded.corrects.number}" if recorded.corrects else ""
    say(f"written: {line_of(zone, recorded.fact)}{instead}")
    return tell_moves(arguments, job, with_facts(job, [recorded.fact]), (recorded.fact,))


def line_of(zone: ZoneInfo, fact: Fact) -> str:
    """A fact as its line in the book."""
    return line_text(fact.number, fact.happened, fact.written, fact_words(fact, zone), zone)


def tell_moves(arguments: argparse.Namespace, job: Job, changed: Job, facts: tuple[Fact, ...]) -> int:
    """Plans a job with other facts, gives what moves; gives the exit code."""
    from sequencer.answers.moves import between
    from sequencer.planning import NoOrderFits
    from sequencer.views.moves import moves_document, moves_text

    try:
        found = between(job, changed, arguments.effort, tell)
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    calls = "" if arguments.json else _calls(arguments, job, found, facts)
    give(moves_document(found, facts) if arguments.json else moves_text(found) + calls, arguments)
    if found.plan.proven:
        return DONE
    say("stopped before proof: a shorter plan is not ruled out")
    return UNPROVEN


def _calls(arguments: argparse.Namespace, job: Job, found: Moves, facts: tuple[Fact, ...]) -> str:
    """Whom to call about it, where people were told a plan."""
    from sequencer.answers.what_now.answer import of_moves
    from sequencer.views.what_now.text import calls_text

    if job.told is None:
        return ""
    return calls_text(of_moves(job, found, facts, job.told, arguments.effort, tell))
