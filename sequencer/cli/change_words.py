"""A change as it is told on a command line, in the words a fact is told in."""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable
from datetime import date
from zoneinfo import ZoneInfo

from sequencer.cli.meant import meant
from sequencer.cli.planned import Refused
from sequencer.files.days import day_words
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, utc
from sequencer.terms.told import Told

_FOUND = re.compile(r"(?P<what>.+?)\s+(?P<time>[0-9][0-9.]*\s*(?:h|min|d)\b.*)")


def change_words(job: Job, kind: str, told: argparse.Namespace, before: Callable[[], Told]) -> str:
    """What stands behind the kind of a fact; `before` is asked for who comes so many days later. Refused."""
    words = " ".join(told.word)
    if kind == "late" and told.until is not None:
        return f"{words} until {told.until}"
    if kind == "late" and told.days is not None:
        return f"{words} until {_later(job, words, told.days, before())}"
    if kind == "delivered":
        rest = f", rest by {told.rest_by}" if told.rest_by else ""
        return f"{words}{', short' if told.short or rest else ''}{rest}"
    if kind == "found" and "," not in words:
        return _found(job, words, told)
    return words


def _later(job: Job, who: str, days: int, before: Told) -> str:
    """The day so many working days after the day they were to come next."""
    if days < 1:
        raise Refused("nobody comes no days later; write --days 1 or more")
    trade = meant(job, "late", who).partition(" ")[2].strip()
    past = job.past or {}
    coming = [
        before.starts[step.id]
        for step in job.steps
        if step.trade == trade and step.id in before.starts and step.id not in past
    ]
    coming = [start for start in coming if start >= max(job.now, job.today or job.now)]
    if not coming:
        raise Refused(f"no visit of {trade} is to come; write --until and a day")
    days_left = [start for start, end in job.working_days if end > min(coming)]
    if len(days_left) <= days:
        raise Refused("the calendar ends before that; write --until and a day")
    return day_words(_date(job, days_left[days]))


def _date(job: Job, minute: Minute) -> date:
    return utc(minute).astimezone(ZoneInfo(job.zone)).date()


def _found(job: Job, words: str, told: argparse.Namespace) -> str:
    """found STEP, rot, 6 h, by carpenter"""
    parts = _FOUND.fullmatch(words)
    if parts is None:
        raise Refused("say what was found and how long it takes; write: found rot 6 h")
    where = told.step or _where(job)
    by = f", by {told.by}" if told.by else ""
    return f"{where}, {parts['what']}, {parts['time']}{by}"


def _where(job: Job) -> str:
    """The step under way, else the one that was done last; never one that was not told."""
    told = [fact for fact in job.facts if fact.kind in ("began", "done", "passed", "failed")]
    ended = {fact.about for fact in told if fact.kind != "began"}
    under_way = [fact for fact in told if fact.kind == "began" and fact.about not in ended]
    last = max(under_way or told, key=lambda fact: (fact.happened, fact.number), default=None)
    if last is None:
        raise Refused("which step brought it to light? Write --step and its name")
    return last.about
