"""Work lies in the trade's hours, is all there, and lies within one day where it must."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from sequencer.audit.days import day_at, days_between
from sequencer.audit.people import they_come_anyway
from sequencer.audit.site import Site, overlap
from sequencer.terms.house import House
from sequencer.terms.job import Step, Trade
from sequencer.terms.minute import Span


def broken(site: Site) -> Iterator[str]:
    """Hours that are not the trade's, work missing, days crossed in one go, a start before the job's."""
    house = site.job.house
    for step in site.job.steps:
        if site.behind(step):
            continue
        trade = site.job.trades[step.trade]
        pieces = site.times.pieces[step.id]
        if site.start(step) < max(site.job.start, site.job.now):
            yield f"{step.id} starts before the job does"
        allowed = _allowed(step, house)
        yield from _in_hours(step, trade, pieces, allowed)
        if step.where is None and house.access is not None and not all(_inside(one, house.access) for one in pieces):
            yield f"{step.id} is done while nobody may be in the house"
        if not trade.hour_known:
            near = days_between(trade, pieces[0][0], pieces[-1][1])
            days_open = [_clipped(day.spans, allowed) for day in near]
            if [pieces[0][0], pieces[-1][1]] not in [[day[0][0], day[-1][1]] for day in days_open if day]:
                yield f"{step.id} does not take {trade.name}'s whole window"
            continue
        if sum(b - a for a, b in pieces) != step.minutes:
            yield f"{step.id} has {sum(b - a for a, b in pieces)} min of work instead of {step.minutes}"
        if step.noisy and house.noise is not None and not all(_inside(piece, house.noise) for piece in pieces):
            yield f"{step.id} makes noise outside the hours the house allows"
        days = {day_at(trade, piece[0]) for piece in pieces}
        one_day = step.one_go or (house.lived_in and bool(step.services_off))
        if one_day and len(days) > 1:
            yield f"{step.id} does not lie within one day"
        yield from _stubs(site, step, trade)
    over = site.times.hand_over
    hours = (span for day in site.job.trades[site.job.hand_over_trade].days for span in day.spans)
    spans = [(a, b) for a, b in hours if a <= over <= b]
    if house.access is not None:
        spans = _clipped(spans, [house.access])
    if not any(a <= over <= b for a, b in spans):
        yield "hand-over lies outside working hours"


def _allowed(step: Step, house: House) -> list[tuple[Span, ...]]:
    """The spans of the house in which a step may be done, each a list of its own."""
    noise = [house.noise] if step.noisy and house.noise is not None else []
    return noise + ([house.access] if step.where is None and house.access is not None else [])


def _clipped(spans: Iterable[Span], allowed: list[tuple[Span, ...]]) -> list[Span]:
    """What of spans lies in every list of others."""
    found = list(spans)
    for others in allowed:
        both = [(max(a, c), min(b, d)) for a, b in found for c, d in others if a < d and c < b]
        found = [(start, end) for start, end in both if start < end]
    return found


def _in_hours(step: Step, trade: Trade, pieces: tuple[Span, ...], allowed: list[tuple[Span, ...]]) -> Iterator[str]:
    while_it_lasts = (pieces[0][0], pieces[-1][1])
    days = days_between(trade, *while_it_lasts)
    spans = [span for day in days for span in day.spans if overlap(span, while_it_lasts)]
    for number, (start, end) in enumerate(pieces):
        if end <= start:
            yield f"{step.id} has a piece that takes no time"
        if not any(a <= start and end <= b for a, b in spans):
            yield f"{step.id} lies outside the hours of {trade.name}"
        if number and start < pieces[number - 1][1]:
            yield f"{step.id} has pieces out of order"
    for (_, stops), (goes_on, _) in zip(pieces, pieces[1:], strict=False):
        if stops < goes_on and _clipped(spans, [((stops, goes_on),), *allowed]):
            yield f"{step.id} pauses while {trade.name} is there"


def _inside(piece: Span, spans: tuple[Span, ...]) -> bool:
    return any(a <= piece[0] and piece[1] <= b for a, b in spans)


def _stubs(site: Site, step: Step, trade: Trade) -> Iterator[str]:
    """No day of a step holds less than the shortest visit, unless the step is shorter, or they come then anyway."""
    least = min(trade.shortest_visit, step.minutes)
    if not least or any(booking.step == step.id for booking in site.job.bookings):
        return
    by_day: dict[int | None, int] = {}
    for start, end in site.times.pieces[step.id]:
        if not they_come_anyway(site, trade, start):
            day = day_at(trade, start)
            by_day[day] = by_day.get(day, 0) + end - start
    if any(minutes < least for minutes in by_day.values()):
        yield f"{step.id} brings {trade.name} for less than the shortest visit"
