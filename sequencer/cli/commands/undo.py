"""`undo`, `undo 12`: strikes a fact of the site book, then says what moves."""

from __future__ import annotations

import argparse
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.cli import DONE, WRONG, say
from sequencer.cli.fact_told import clock_now
from sequencer.cli.what_now import known_before, line_of, planned_again, tell_what_now
from sequencer.files import read_job
from sequencer.files.book import book_beside
from sequencer.files.calendar_days import Calendar
from sequencer.files.written import read_written
from sequencer.terms.job import Job
from sequencer.terms.place import Fault, Faulty


def run(arguments: argparse.Namespace) -> int:
    from sequencer.desk.record import NothingToUndo, undo

    path = Path(arguments.job)
    before = _readable(path, arguments)
    zone = ZoneInfo(before.zone) if before is not None else _zone(path)
    try:
        done = undo(book_beside(path), zone, arguments.number, clock_now(Calendar(zone), arguments.today))
    except NothingToUndo as nothing:
        say(str(nothing))
        return WRONG
    say(f"{'undone' if done.fresh else 'undone already'}: {line_of(zone, done.fact)}")
    after = read_job(path, arguments.today)
    if not done.fresh:
        return DONE
    job = before or after
    return planned_again(arguments, lambda: tell_what_now(arguments, job, after, (), known_before(arguments, job)))


def _readable(path: Path, arguments: argparse.Namespace) -> Job | None:
    """The job; None if it has faults, which a fact may be."""
    try:
        return read_job(path, arguments.today)
    except Faulty:
        return None


def _zone(path: Path) -> ZoneInfo:
    """The job's zone, from files that need not be faultless. Faulty if they do not even say that."""
    faults: list[Fault] = []
    written = read_written(path, faults)
    if written is None:
        raise Faulty(faults)
    return written.job.place.zone
