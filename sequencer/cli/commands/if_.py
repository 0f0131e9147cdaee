"""`if`: one or more changes, joined by --and, planned again; nothing is written."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from functools import partial
from pathlib import Path

from sequencer.cli.breaks import BREAKS, FLAGS
from sequencer.cli.change_words import change_words
from sequencer.cli.fact_told import fact_told
from sequencer.cli.facts import FACTS
from sequencer.cli.planned import Refused
from sequencer.cli.what_now import known_before, planned_again, tell_what_now
from sequencer.files import read_job
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.told import Told
from sequencer.terms.with_facts import with_facts

JOINS = "--and"


def run(arguments: argparse.Namespace) -> int:
    return planned_again(arguments, partial(_thought_through, arguments))


def _thought_through(arguments: argparse.Namespace) -> int:
    job = read_job(Path(arguments.job), arguments.today)
    before = known_before(arguments, job)
    changed, facts = job, []
    for change in _changes([*arguments.word, *arguments.more]):
        fact = _thought(changed, change, lambda: before().plan, arguments)
        facts.append(fact)
        changed = with_facts(changed, [fact])
    return tell_what_now(arguments, job, changed, tuple(facts), before)


def _changes(given: list[str]) -> list[list[str]]:
    """The words of each change."""
    changes: list[list[str]] = [[]]
    for word in given:
        if word == JOINS:
            changes.append([])
        else:
            changes[-1].append(word)
    return changes


def _thought(job: Job, change: list[str], before: Callable[[], Told], arguments: argparse.Namespace) -> Fact:
    """A change as the fact it would be. Refused."""
    kinds = (*BREAKS, *FACTS)
    kind = change[0] if change else ""
    if kind not in kinds:
        raise Refused(f'"{kind}" is no change; write one of: {", ".join(kinds)}')
    parser = argparse.ArgumentParser(prog=f"sequencer if {kind}", add_help=False)
    parser.add_argument("word", nargs="+", metavar="WORD")
    if kind in FLAGS:
        FLAGS[kind](parser)
    told = parser.parse_args(change[1:])
    return fact_told(job, kind, change_words(job, kind, told, before), None, arguments.today)
