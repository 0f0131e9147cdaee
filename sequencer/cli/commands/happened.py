"""`late`, `away`, `found`, `failed`, `delivered`: into the site book at once, then what moves and whom to call."""

from __future__ import annotations

import argparse
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.cli import DONE, WRONG, say
from sequencer.cli.change_words import change_words
from sequencer.cli.commands.record import line_of
from sequencer.cli.fact_told import fact_told
from sequencer.cli.planned import Refused, no_order_fits, tell
from sequencer.cli.what_now import tell_what_now
from sequencer.files import read_job
from sequencer.files.book import book_beside
from sequencer.terms.told import Told
from sequencer.terms.with_facts import with_facts


def run(arguments: argparse.Namespace) -> int:
    """The fact is written before the plan is made, because it happened."""
    from sequencer.answers.what_now.answer import known
    from sequencer.desk.record import record
    from sequencer.planning import NoOrderFits

    path = Path(arguments.job)
    job = read_job(path, arguments.today)
    zone = ZoneInfo(job.zone)

    @cache
    def before() -> Told:
        return known(job, arguments.effort, tell)

    try:
        words = change_words(job, arguments.command, arguments, before)
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
        return tell_what_now(arguments, job, with_facts(job, [fact]), (fact,), before())
    except NoOrderFits as none:
        return no_order_fits(none.sentences, arguments)
    except Refused as refused:
        say(str(refused))
        return WRONG
