"""Whom to call after something happened, in which order, by when, and about what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sequencer.answers.what_now.visits import VisitMove
from sequencer.terms.fact import CLIENT, Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute

About = Literal["yes", "confirm", "move", "release", "come", "tell"]
FIRST: tuple[About, ...] = ("yes", "confirm", "move", "release", "come", "tell")
"""What the call is about: the client's yes; the new day, of whom it all hangs on; a visit moved, given back, added; the
client told. Who is asked before others stands in front where the last moments are the same."""


@dataclass(frozen=True)
class CallNow:
    """A call to make. `who`: a trade, or the client. `by`: its last moment, now where none is left."""

    who: str
    about: About
    by: Minute
    visits: tuple[VisitMove, ...] = ()


def calls_now(
    job: Job, visits: tuple[VisitMove, ...], facts: tuple[Fact, ...], know: frozenset[str], client: bool
) -> tuple[CallNow, ...]:
    """The calls, in the order to make them. `know`: steps whose trade knows its day. `client`: a date they know moves.

    First the client's yes and whoever it all hangs on, then by the last moment, then by the visit that would be made in
    vain; the client is told last, when the others have answered, unless their yes is asked for: that tells them too.
    """
    late = {fact.about for fact in facts if fact.kind in ("late", "away")}
    calls = [CallNow(CLIENT, "yes", _today(job))] if any(fact.kind == "found" for fact in facts) else []
    trades: dict[tuple[str, About], list[VisitMove]] = {}
    for visit in visits:
        if visit.moves and visit.trade != CLIENT and (visit.trade in late or not know.isdisjoint(visit.steps)):
            trades.setdefault((visit.trade, _about(visit, late)), []).append(visit)
    calls += [
        CallNow(who, about, min(_by(job, visit) for visit in moved), tuple(moved))
        for (who, about), moved in trades.items()
    ]
    if client and not any(call.about == "yes" for call in calls):
        calls.append(CallNow(CLIENT, "tell", _today(job)))
    return tuple(sorted(calls, key=_rank))


def _about(visit: VisitMove, late: set[str]) -> About:
    if visit.starts is None:
        return "release"
    if visit.was is None:
        return "come"
    return "confirm" if visit.trade in late else "move"


def _rank(call: CallNow) -> tuple[int, Minute, Minute, int, str]:
    place = 0 if call.about in ("yes", "confirm") else 2 if call.about == "tell" else 1
    soonest = min((visit.was or visit.starts or 0 for visit in call.visits), default=0)
    return (place, call.by, soonest, FIRST.index(call.about), call.who)


def _by(job: Job, visit: VisitMove) -> Minute:
    """Before they set out for the old day, and before their notice for the new one runs out; today at the soonest."""
    return max(min(_last_moments(job, visit), default=_today(job)), job.now)


def _last_moments(job: Job, visit: VisitMove) -> Iterator[Minute]:
    if visit.was is not None:
        ends = [end for _, end in job.working_days if end <= visit.was]
        yield ends[-1] if ends else job.now
    if visit.call_by is not None:
        yield visit.call_by
    if visit.was is None and visit.starts is not None and visit.call_by is None:
        ends = [end for _, end in job.working_days if end <= visit.starts]
        yield ends[-1] if ends else job.now


def _today(job: Job) -> Minute:
    """The end of the day it is."""
    return next((end for _, end in job.working_days if end > job.now), job.now)
