"""What facts do to the people of a job: who is away, who is asked, booked, released, and the notice they need now."""

from __future__ import annotations

from dataclasses import replace
from itertools import zip_longest

from sequencer.terms.arranged import Booking
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job, Trade, Workday
from sequencer.terms.minute import Minute, Span
from sequencer.terms.past import Asked


def away(job: Job, fact: Fact) -> Job:
    """A trade without the hours of the fact's span; its firm visits in it cannot be kept and are gone."""
    assert fact.span is not None
    trade, (first, out) = job.trades[fact.about], fact.span
    kept = [
        (Workday(spans), last)
        for day, last in zip_longest(trade.days, trade.ask_by)
        if (spans := _without(day.spans, fact.span))
    ]
    ask_by = tuple(last for _, last in kept) if trade.ask_by else ()
    there = replace(trade, days=tuple(day for day, _ in kept), ask_by=ask_by)
    bookings = (b for b in job.bookings if b.trade != trade.name or not first <= b.at < out)
    return replace(job, trades={**job.trades, trade.name: there}, bookings=tuple(bookings))


def _without(spans: tuple[Span, ...], hole: Span) -> tuple[Span, ...]:
    left = ((part for start, end in spans for part in ((start, min(end, hole[0])), (max(start, hole[1]), end))))
    return tuple((start, end) for start, end in left if start < end)


def asked(job: Job, fact: Fact) -> Job:
    """The trade of a step is asked for it: its notice counts from then; it comes no sooner than it was asked for."""
    notice = job.trades[job.step(fact.about).trade].notice_days
    since = Asked(fact.happened, _notice(job, fact.happened, notice), fact.at)
    return replace(_without_visit(job, fact.about), asked={**job.asked, fact.about: since})


def booked(job: Job, fact: Fact) -> Job:
    """A firm visit for a step, in place of any other."""
    assert fact.at is not None
    firm = Booking(job.step(fact.about).trade, fact.at, fact.about, fact.place)
    free = _without_visit(job, fact.about)
    return replace(free, bookings=(*free.bookings, firm))


def released(job: Job, fact: Fact) -> Job:
    """A step whose visit is given back."""
    return _without_visit(job, fact.about)


def _without_visit(job: Job, step: str) -> Job:
    bookings = tuple(booking for booking in job.bookings if booking.step != step)
    return replace(job, bookings=bookings, asked={id: since for id, since in job.asked.items() if id != step})


def with_notice(job: Job) -> Job:
    """The job with every trade's notice counted from now."""
    return replace(job, trades={name: _from_now(job, trade) for name, trade in job.trades.items()})


def _from_now(job: Job, trade: Trade) -> Trade:
    if not trade.notice_days:
        return trade
    return replace(trade, earliest=_notice(job, job.now, trade.notice_days))


def _notice(job: Job, moment: Minute, days: int) -> Minute | None:
    """The start of the working day that lies so many working days after a moment's day; None without notice."""
    later = [start for start, _ in job.working_days if start > moment]
    if not days:
        return None
    return later[days - 1] if len(later) >= days else job.horizon
