"""Lasting names of visits: a visit keeps the name under which its trade was told of it; no number is given twice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sequencer.plan import CalledOff, Visit
from sequencer.terms.job import Job
from sequencer.terms.told import Told, ToldVisit


def visit_names(trade: str, runs: Sequence[tuple[str, ...]], told: Told | None) -> list[tuple[str, ToldVisit | None]]:
    """A name for each run of steps, and the told visit that it is: the one with which it shares most steps."""
    known = [visit for visit in told.visits if visit.trade == trade] if told is not None else []
    shared = {
        (one, other): len(set(run) & set(visit.steps))
        for one, run in enumerate(runs)
        for other, visit in enumerate(known)
    }
    found: dict[int, ToldVisit] = {}
    for (one, other), count in sorted(shared.items(), key=lambda pair: (-pair[1], pair[0])):
        if count and one not in found and known[other] not in found.values():
            found[one] = known[other]
    last = told.last_visit.get(trade, 0) if told is not None else 0
    names: list[tuple[str, ToldVisit | None]] = []
    for one in range(len(runs)):
        last += one not in found
        names.append((found[one].id, found[one]) if one in found else (f"{trade} {last}", None))
    return names


def called_off(job: Job, visits: Iterable[Visit]) -> tuple[CalledOff, ...]:
    """The visits people were told of, nothing of them done yet, that are not in the plan any more."""
    left, past = {visit.id for visit in visits}, job.past or {}
    return tuple(
        CalledOff(visit.id, visit.trade, visit.start)
        for visit in (job.told.visits if job.told is not None else ())
        if visit.id not in left and past.keys().isdisjoint(visit.steps)
    )
