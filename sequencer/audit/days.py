"""The days of a trade by a moment: they stand in order and never overlap, so they are found by halving."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from sequencer.terms.job import Trade, Workday
from sequencer.terms.minute import Minute


def begun_by(trade: Trade, moment: Minute) -> int:
    """How many of a trade's days open at a moment or before it."""
    return bisect_right(trade.days, moment, key=_opens)


def begun_before(trade: Trade, moment: Minute) -> int:
    """How many of a trade's days open before a moment."""
    return bisect_left(trade.days, moment, key=_opens)


def day_at(trade: Trade, moment: Minute) -> int | None:
    """The number of the day that holds a moment, between its first opening and its last closing; None if none does."""
    number = begun_by(trade, moment) - 1
    return number if number >= 0 and moment < trade.days[number].spans[-1][1] else None


def days_between(trade: Trade, start: Minute, end: Minute) -> tuple[Workday, ...]:
    """The days that may have hours between two moments: all that have, and perhaps one that is over."""
    return trade.days[max(begun_by(trade, start) - 1, 0) : begun_before(trade, end)]


def _opens(day: Workday) -> Minute:
    return day.spans[0][0]
