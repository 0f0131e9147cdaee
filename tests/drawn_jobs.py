"""Tiny random jobs, read from their files and so short that every start of theirs can be tried."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from random_jobs import RandomJob

from sequencer.files import read_job
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY

BEFORE = date(2025, 1, 1)
"""A day before every random job starts."""


def drawn_job(seed: int, folder: Path, start: date | None = None) -> Job:
    """The random job of a seed, written into a folder; Faulty where what was drawn is no job."""
    made = RandomJob(seed, start)
    made.write(folder)
    return cut_after(read_job(folder, BEFORE), made.days)


def cut_after(job: Job, days: int) -> Job:
    """The job with all calendars ended so many days after its start, so that every start can be tried."""
    end = job.start + days * DAY
    trades = {}
    for name, trade in job.trades.items():
        kept = [number for number, day in enumerate(trade.days) if day.spans[-1][1] <= end]
        asks = tuple(trade.ask_by[number] for number in kept) if trade.ask_by else ()
        trades[name] = replace(trade, days=tuple(trade.days[number] for number in kept), ask_by=asks)
    return replace(job, trades=trades, horizon=end)
