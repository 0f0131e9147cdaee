"""Giving by degrees what layers, orders and decisions ask for."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from sequencer.causes.ladder import Ladder
from sequencer.causes.without import with_wait
from sequencer.files.said import said_day
from sequencer.terms.arranged import Decision, Order
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.wait import Wait
from sequencer.waits.words import length

HOURS_TRIED, DAYS_TRIED = 24, 30
"""How far a window is made longer: hour by hour at first, then day by day. The grain of an answer, nothing else."""


def window_ladder(now: int) -> list[int]:
    """Lengths of a window beyond the one it has [min], shortest first."""
    return [now + HOUR * n for n in range(1, HOURS_TRIED)] + [now + DAY * n for n in range(1, DAYS_TRIED)]


def within(job: Job, cause: Cause) -> Iterator[Ladder]:
    """A longer window."""
    wait = job.step(cause.of).wait_for(cause.what)
    now = (wait.within_minutes if wait else None) or 0
    yield Ladder(
        window_ladder(now),
        lambda longer: with_wait(job, cause.of, cause.what, lambda wait: replace(wait, within_minutes=longer)),
        lambda longer: f"within {length(longer)} instead of {length(now)}",
    )


def wait(job: Job, cause: Cause) -> Iterator[Ladder]:
    """A shorter wait, hour by hour; all its stages are shortened in one measure."""
    own = job.step(cause.of).wait_for(cause.what)
    whole = sum(stage.hours for stage in (own, *own.then)) if own else 0.0

    def quicker(wait: Wait, hours: int) -> Wait:
        then = tuple(replace(stage, hours=stage.hours * hours / whole) for stage in wait.then)
        floor = None if wait.floor_hours is None else min(wait.floor_hours, hours)
        return replace(wait, hours=wait.hours * hours / whole, floor_hours=floor, then=then)

    yield Ladder(
        range(ceil(whole) - 1, 0, -1),
        lambda hours: with_wait(job, cause.of, cause.what, lambda wait: quicker(wait, hours)),
        lambda hours: f"ready after {hours} h instead of {whole:g} h, by a quicker product",
    )


def delivery(job: Job, cause: Cause) -> Iterator[Ladder]:
    """A shorter lead, or an earlier day on site."""
    order = next(order for order in job.orders if order.name == cause.of)

    def ordered(changed: Order) -> Job:
        return replace(job, orders=tuple(changed if one.name == order.name else one for one in job.orders))

    if order.made_after is not None:
        yield Ladder(
            range(order.lead_days - 1, -1, -1),
            lambda days: ordered(replace(order, lead_days=days)),
            lambda days: f"made in {_days(days)} instead of {order.lead_days}",
        )
        return
    starts = [start for start, _ in job.working_days]
    yield Ladder(
        starts[: bisect_left(starts, (order.arrives or job.start) - 1)][::-1],
        lambda start: ordered(replace(order, arrives=start)),
        lambda start: f"on site before {said_day(job.zone, start)}",
    )


def decision(job: Job, cause: Cause) -> Iterator[Ladder]:
    """An earlier day."""
    late = next(one for one in job.decisions if one.name == cause.of)

    def decided(start: int) -> Job:
        sooner: Decision = replace(late, stands=start)
        return replace(job, decisions=tuple(sooner if one.name == late.name else one for one in job.decisions))

    starts = [start for start, _ in job.working_days]
    yield Ladder(
        starts[: bisect_left(starts, late.stands - 1)][::-1],
        decided,
        lambda start: f"decided before {said_day(job.zone, start)}",
    )


def _days(count: int) -> str:
    return "1 working day" if count == 1 else f"{count} working days"
