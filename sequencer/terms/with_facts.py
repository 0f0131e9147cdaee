"""A job with what really happened: every standing fact of the site book, and facts that are only thought of."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import reduce
from typing import Final

from sequencer.terms.fact import Fact, latest
from sequencer.terms.facts_of_people import asked, away, booked, released, with_notice
from sequencer.terms.facts_of_things import air_read, delivered, layer_read, not_yet_here, ordered
from sequencer.terms.job import Job
from sequencer.terms.repeats import found, repeated


def with_facts(job: Job, more: Iterable[Fact]) -> Job:
    """The job with its own standing facts and these on top, as the files say it otherwise; without any it is the same.

    Numbers of `more` follow those of the book. Now is the later of 00:00 today and the newest fact. The past of the
    steps is left to be worked out anew.
    """
    facts = latest((*job.facts, *more))
    bare = job.as_written or job
    if not facts:
        return bare
    changed = reduce(_applied, facts, replace(bare, as_written=bare, facts=facts))
    now = max(job.now if job.today is None else job.today, *(fact.happened for fact in facts))
    begun = frozenset(fact.about for fact in facts if fact.kind in ("began", "done"))
    return not_yet_here(with_notice(replace(changed, now=now)), begun)


def _applied(job: Job, fact: Fact) -> Job:
    if fact.kind == "measured" and fact.purpose is not None:
        return layer_read(job, fact)
    if fact.kind == "measured" and (fact.temperature is not None or fact.humidity is not None):
        return air_read(job, fact)
    change = _CHANGES.get(fact.kind)
    return change(job, fact) if change else job


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
