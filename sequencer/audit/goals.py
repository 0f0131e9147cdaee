"""What a plan comes to, goal by goal, counted again from its times: of what is still to be done."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping

from sequencer.air.hourly import RoomAir
from sequencer.audit.days import begun_before, begun_by
from sequencer.audit.site import Site, Times
from sequencer.terms.goal import AWAITED, HAND_OVER_GOAL, TOLD_VISITS_MOVED, VISITS
from sequencer.terms.job import Job, Step, Trade
from sequencer.terms.minute import Minute


def miscounted(job: Job, airs: dict[str, RoomAir], times: Times, said: Mapping[str, int]) -> tuple[str, ...]:
    """The goals for which something else is said than a plan comes to, in sentences."""
    found = counted(job, airs, times)
    wrong = ((name, value) for name, value in said.items() if found.get(name, value) != value)
    return tuple(f"{name}: {value} is said, the plan comes to {found[name]}" for name, value in wrong)


def counted(job: Job, airs: dict[str, RoomAir], times: Times) -> dict[str, int]:
    """What a plan comes to by the names of the goals: half-days, visits moved, visits."""
    site = Site(job, airs, times)
    left = [step for step in job.steps if step.id not in (job.past or {})]
    ahead = {step.id for step in left}
    found = {HAND_OVER_GOAL: _half_day(job, times.hand_over)}
    if job.told is not None:
        found[TOLD_VISITS_MOVED] = sum(_moved(site, visit.steps) for visit in job.told.visits)
    for word in AWAITED if job.house.lived_in else ():
        ready = [site.ready(step, given.purpose) for step in left for given in step.gives if given.state == word]
        if ready:
            found[word] = max(_half_day(job, moment) for moment in ready)
    others = [trade for trade in job.trades.values() if trade.name != job.hand_over_trade]
    theirs = {trade.name: site.of_trade(trade.name) for trade in others}
    coming = [trade for trade in others if any(step.id in ahead for step in theirs[trade.name])]
    found[VISITS] = sum(_visits(site, trade, theirs[trade.name]) for trade in coming)
    return found


def _half_day(job: Job, moment: Minute) -> int:
    return bisect_right(job.half_days, moment)


def _moved(site: Site, visit: tuple[str, ...]) -> bool:
    """True if a visit has a step, still to be done, that starts at another moment than its trade was told."""
    told = site.job.told_starts
    return any(site.times.pieces[id][0][0] != told[id] for id in visit if id in told)


def _visits(site: Site, trade: Trade, steps: list[Step]) -> int:
    """Days of a trade with work of these steps, or between two such hours of one step, that follow on none before."""
    at_work = {day for step in steps for day in _days(site, trade, step)}
    return sum(day - 1 not in at_work for day in at_work)


def _days(site: Site, trade: Trade, step: Step) -> Iterator[int]:
    begun, over = begun_by(trade, site.start(step)), begun_before(trade, site.end(step))
    yield from range(begun, max(begun, over) + 1)
