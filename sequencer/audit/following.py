"""Every step follows what it names, no sooner than ready and no later than its latest."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.days import days_between
from sequencer.audit.grouped import kin
from sequencer.audit.site import Site, meet
from sequencer.terms.job import Step


def broken(site: Site) -> Iterator[str]:
    """Starts too soon, starts too late, and a hand-over too soon."""
    for step in site.job.steps:
        for giver, purpose in () if site.behind(step) else heard(site, step):
            if site.start(step) < site.ready(giver, purpose):
                yield f"{step.id} starts before {giver.id} is {'ready for ' + purpose if purpose else 'done'}"
            yield from _too_late(site, step, giver, purpose)
            yield from _cushion(site, step, giver, purpose)
        if site.times.hand_over < site.end(step):
            yield f"hand-over comes before {step.id} is done"
        for wait in step.waits:
            if wait.purpose in site.job.hand_over_needs and site.times.hand_over < site.ready(step, wait.purpose):
                yield f"hand-over comes before {step.id} is ready for {wait.purpose}"


def heard(site: Site, step: Step) -> Iterator[tuple[Step, str | None]]:
    """The steps a step waits for, by name and by state, each with what it must be ready for."""
    for link in step.links:
        yield site.job.step(link.id), link.purpose
    for need in (*step.needs, *step.follows):
        room, _, word = need.word.rpartition(":")
        for giver, given in site.givers(room.strip() or step.room, word.strip()):
            near = giver.id != step.id and (bool(room) or meet(step, giver))
            if near and not _repair(site, giver, step, word):
                yield giver, given.purpose


def _repair(site: Site, giver: Step, step: Step, state: str) -> bool:
    """True if a giver only gives again what its own recipe took back from a step: that is looked at state by state."""
    takers = [s for s in site.takers(giver.room, state.strip()) if kin(s, giver)]
    others = [s for s in takers if not kin(s, step) and (s.room != step.room or meet(s, step))]
    return bool(others) or step in takers


def _too_late(site: Site, step: Step, giver: Step, purpose: str | None) -> Iterator[str]:
    wait = giver.wait_for(purpose) if purpose else None
    if wait is not None and wait.within_minutes is not None:
        counted_from = site.ready(giver, purpose) if wait.within_of_ready else site.end(giver)
        latest = counted_from + wait.within_minutes
        if site.start(step) > latest and not site.too_late(giver, step, latest):
            yield f"{step.id} starts too late after {giver.id}"


def _cushion(site: Site, step: Step, giver: Step, purpose: str | None) -> Iterator[str]:
    trade = site.job.trades[step.trade]
    if trade.cushion and giver.trade != trade.name and step.id not in site.job.cushion_used:
        ready, start = site.ready(giver, purpose), site.start(step)
        days = days_between(trade, ready, start)
        between = sum(max(0, min(b, start) - max(a, ready)) for day in days for a, b in day.spans)
        if between < trade.cushion:
            yield f"{step.id} comes less than the cushion of {trade.name} behind {giver.id}"
