"""`done grout walls --at "Tue 16:30"`, `late plumber --until Thu` and every other fact: into the site book at once;
then what moves and whom to call."""

from __future__ import annotations

import argparse
from functools import partial
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.cli import DONE, say
from sequencer.cli.change_words import change_words
from sequencer.cli.fact_told import fact_told
from sequencer.cli.what_now import known_before, line_of, planned_again, tell_what_now
from sequencer.files import read_job
from sequencer.files.book import book_beside
from sequencer.terms.with_facts import with_facts


def run(arguments: argparse.Namespace) -> int:
    return planned_again(arguments, partial(_recorded, arguments))


def _recorded(arguments: argparse.Namespace) -> int:
    """The fact is written before the plan is made, because it happened."""
    from sequencer.desk.record import record

    path = Path(arguments.job)
    job = read_job(path, arguments.today)
    zone, before = ZoneInfo(job.zone), known_before(arguments, job)
    words = change_words(job, arguments.command, arguments, lambda: before().plan)
    fact = fact_told(job, arguments.command, words, arguments.at, arguments.today)
    if arguments.dry_run:
        say(f"would write: {line_of(zone, fact)}")
    else:
        recorded = record(book_beside(path), zone, fact, arguments.at is not None)
        if not recorded.fresh:
            say(f"stands already: {line_of(zone, recorded.fact)}")
            return DONE
        instead = f"; it takes the place of fact {recorded.corrects.number}" if recorded.corrects else ""
        say(f"written: {line_of(zone, recorded.fact)}{instead}")
        fact = recorded.fact
    return tell_what_now(arguments, job, with_facts(job, [fact]), (fact,), before)
