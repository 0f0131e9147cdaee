"""A job with what really happened: every standing fact of the site book, and facts that are only thought of."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from functools import reduce
from typing import Final

from sequencer.terms.fact import Fact, latest
from sequencer.terms.facts_of_people import asked, away, booked, released, with_notice
from sequencer.terms.facts_of_things import air_read, delivered, layer_read, not_yet_decided, not_yet_here, ordered
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute, Span
from sequencer.terms.past import Past
from sequencer.terms.repeats import found, repeated


def with_facts(job: Job, more: Iterable[Fact]) -> Job:
    """The job with its own standing facts and these on top, as the files say it otherwise; without any it is the same.

    Numbers of `more` follow those of the book. Now is the later of 00:00 today and the newest fact. The past of the
    steps is left to be worked out anew.
    """
    bare, facts = without_facts(job), latest((*job.facts, *more))
    today = bare.now if bare.today is None else bare.today
    return _told(bare, facts, max([today, *(fact.happened for fact in facts)])) if facts else bare


def without_facts(job: Job) -> Job:
    """The job as its files say it without the site book."""
    if job.as_written is None:
        return job
    return replace(job.as_written, told=job.told, beside=job.beside, shared=job.shared)


def as_made(job: Job) -> Job:
    """The job as it was planned before the work began: with all that was agreed by its first day, with nothing done."""
    bare, agreed = without_facts(job), agreed_at_first(job)
    return replace(_told(bare, agreed, bare.now) if agreed else bare, past={})


def with_past(job: Job, past: dict[str, Past], made: Mapping[str, tuple[Span, ...]]) -> Job:
    """The job with what has happened of its steps. A firm visit whose hour is gone, and its step not begun, is gone.

    `made`: the plan people went by; an inspection it had over that nobody told about is named.
    """
    open_holds = [
        step.id
        for step in job.steps
        if step.kind == "hold" and step.id not in past and step.id in made and made[step.id][-1][1] < job.now
    ]
    holds = f"not told as passed, so what waits for it is still to be done: {', '.join(open_holds)}"
    missed = tuple(one for one in job.bookings if one.at < job.now and one.step not in past)
    kept = tuple(one for one in job.bookings if one not in missed)
    anew = "and nobody told that it began: to be booked anew"
    said = (f"{one.trade} was booked for {one.step}, {anew}" for one in missed)
    assumed = (*job.assumed, *said, *([holds] if open_holds else []))
    return replace(job, past=past, bookings=kept, assumed=assumed)


def agreed_at_first(job: Job) -> tuple[Fact, ...]:
    """The facts that say what was agreed with others by the end of the job's first day."""
    return tuple(fact for fact in job.facts if fact.kind in AGREED and fact.happened < job.start + DAY)


def _told(bare: Job, facts: tuple[Fact, ...], now: Minute) -> Job:
    changed = reduce(_applied, facts, replace(bare, as_written=bare, facts=facts))
    begun = frozenset(fact.about for fact in facts if fact.kind in ("began", "done"))
    return not_yet_here(not_yet_decided(with_notice(replace(changed, now=now))), begun)


def _applied(job: Job, fact: Fact) -> Job:
    if fact.kind == "measured" and fact.purpose is not None:
        return layer_read(job, fact)
    if fact.kind == "measured" and (fact.temperature is not None or fact.humidity is not None):
        return air_read(job, fact)
    change = _CHANGES.get(fact.kind)
    return change(job, fact) if change else job


AGREED: Final = frozenset({"late", "away", "asked", "booked", "released", "ordered", "delivered"})
"""Kinds that say what was agreed with others, not what was done on site."""

_CHANGES: Final[dict[str, Callable[[Job, Fact], Job]]] = {
    "ready": layer_read,
    "failed": repeated,
    "found": found,
    "late": away,
    "away": away,
    "ordered": ordered,
    "delivered": delivered,
    "asked": asked,
    "booked": booked,
    "released": released,
}
