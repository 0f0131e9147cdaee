"""Giving by degrees what people ask for."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace

from sequencer.causes.ladder import Ladder, Way
from sequencer.causes.people import hands_for_all, missing_days, on_days
from sequencer.causes.without import with_trade
from sequencer.files.said import said_day
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.waits.words import length

HALF_AN_HOUR = HOUR // 2
"""By how much visits are made shorter [min]. The grain of an answer, nothing else."""


def notice(job: Job, cause: Cause) -> Iterator[Ladder]:
    """An earlier day on which they can come."""
    trade = job.trades[cause.of]
    if trade.earliest is None or trade.ask_by:
        return
    starts = [start for start, _ in job.working_days]
    yield Ladder(
        starts[: bisect_left(starts, trade.earliest)][::-1],
        lambda start: with_trade(job, trade.name, lambda one: replace(one, earliest=start)),
        lambda start: f"{trade.name} from {said_day(job.zone, start)} on",
    )


def cushion(job: Job, cause: Cause) -> Iterator[Ladder]:
    """A smaller cushion."""
    now = job.trades[cause.of].cushion
    yield Ladder(
        range((now - 1) // HOUR * HOUR, 0, -HOUR),
        lambda less: with_trade(job, cause.of, lambda one: replace(one, cushion=less)),
        lambda less: f"a cushion of {length(less)} instead of {length(now)}",
    )


def more_days(job: Job, cause: Cause) -> Iterator[Ladder]:
    """All the missing days up to one of them, by its midnight; that day alone, if it will do."""

    def with_days(days: list[Minute]) -> Job:
        return with_trade(job, cause.of, lambda one: on_days(job, one, days))

    missing = [day for day in missing_days(job, job.trades[cause.of]) if day > job.now - DAY]
    yield Ladder(
        missing,
        lambda last: with_days([day for day in missing if day <= last]),
        lambda last: f"{cause.of} on every working day until {said_day(job.zone, last)}",
        lambda last: Way(f"{cause.of} on {said_day(job.zone, last)} too", with_days([last])),
    )


def hands(job: Job, cause: Cause) -> Iterator[Ladder]:
    """More hands at once."""
    trade = job.trades[cause.of]

    def words(count: int) -> str:
        return f"a second pair of hands for {trade.name}" if count == 2 else f"{count} pairs of hands for {trade.name}"

    yield Ladder(
        range(trade.hands + 1, hands_for_all(job, trade) + 1),
        lambda count: with_trade(job, trade.name, lambda one: replace(one, hands=count)),
        words,
    )


def shortest_visit(job: Job, cause: Cause) -> Iterator[Ladder]:
    """Shorter visits."""
    now = job.trades[cause.of].shortest_visit
    yield Ladder(
        range((now - 1) // HALF_AN_HOUR * HALF_AN_HOUR, 0, -HALF_AN_HOUR),
        lambda less: with_trade(job, cause.of, lambda one: replace(one, shortest_visit=less)),
        lambda less: f"visits of {cause.of} from {length(less)} on instead of {length(now)}",
    )
