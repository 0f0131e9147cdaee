"""Giving by degrees what people ask for."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator
from dataclasses import replace

from sequencer.causes.ladder import HALF_AN_HOUR, Ladder, Way
from sequencer.causes.people import hands_for_all, missing_days, on_days
from sequencer.causes.without import with_trade
from sequencer.files.said import said_day
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.waits.words import length


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

    def less(trade: Trade, minutes: int) -> Trade:
        return replace(trade, cushion=minutes)

    yield _less(job, cause, now, HOUR, less, f"a cushion of {{}} instead of {length(now)}")


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

    def less(trade: Trade, minutes: int) -> Trade:
        return replace(trade, shortest_visit=minutes)

    words = f"visits of {cause.of} from {{}} on instead of {length(now)}"
    yield _less(job, cause, now, HALF_AN_HOUR, less, words)


def _less(job: Job, cause: Cause, now: int, by: int, less: Callable[[Trade, int], Trade], words: str) -> Ladder:
    """Less of what a trade asks for [min], by so much at a time."""
    return Ladder(
        range((now - 1) // by * by, 0, -by),
        lambda minutes: with_trade(job, cause.of, lambda trade: less(trade, minutes)),
        lambda minutes: words.format(length(minutes)),
    )
