"""A trade with all the time in the world, within its own hours."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import replace

from sequencer.terms.job import Job, Trade, Workday
from sequencer.terms.minute import Minute


def freed(job: Job, trade: Trade) -> Trade:
    """The trade free in its hours: there on every working day, for as many steps at once as there are, unasked."""
    return replace(
        on_every_day(job, trade),
        hands=hands_for_all(job, trade),
        earliest=None,
        notice_days=0,
        cushion=0,
        shortest_visit=0,
        travel=0,
        ask_by=(),
    )


def hands_for_all(job: Job, trade: Trade) -> int:
    """Hands enough for all of a trade's steps at once."""
    return max(trade.hands, sum(step.hands for step in job.steps if step.trade == trade.name))


def on_every_day(job: Job, trade: Trade) -> Trade:
    """The trade coming on every working day of the place too."""
    return on_days(job, trade, missing_days(job, trade))


def on_days(job: Job, trade: Trade, missing: list[Minute]) -> Trade:
    """The trade coming on further days too, given by their midnights, with the hours of its nearest own day.

    It can be asked for such a day as late as for that own day, so many hours before.
    """
    if not trade.days:
        return trade
    midnights = job.half_days[::2]
    own = [_midnight(midnights, day.spans[0][0]) for day in trade.days]
    nearest = [min(range(len(own)), key=lambda number: abs(own[number] - start)) for start in missing]
    days = [(start, trade.days[at], start - own[at], at) for start, at in zip(missing, nearest, strict=True)]
    days += [(start, day, 0, at) for at, (start, day) in enumerate(zip(own, trade.days, strict=True))]
    days.sort(key=lambda day: day[0])
    return replace(
        trade,
        days=tuple(_later(day, shift) for _, day, shift, _ in days),
        ask_by=tuple(trade.ask_by[at] + shift for _, _, shift, at in days) if trade.ask_by else (),
    )


def missing_days(job: Job, trade: Trade) -> list[Minute]:
    """The midnights of the working days from the start of the job on which a trade does not come."""
    midnights = job.half_days[::2]
    own = {_midnight(midnights, day.spans[0][0]) for day in trade.days}
    return [start for start, _ in job.working_days if start not in own and start >= job.start]


def _midnight(midnights: tuple[Minute, ...], moment: Minute) -> Minute:
    """The last local midnight at or before a moment."""
    return midnights[max(bisect_right(midnights, moment) - 1, 0)]


def _later(day: Workday, shift: int) -> Workday:
    return Workday(tuple((start + shift, end + shift) for start, end in day.spans))
