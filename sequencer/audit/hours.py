"""Work lies in the trade's hours, is all there, and lies within one day where it must."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from sequencer.audit.site import Site, overlap
from sequencer.terms.job import Step, Trade
from sequencer.terms.minute import Span


def broken(site: Site) -> Iterator[str]:
    """Hours that are not the trade's, work missing, days crossed in one go, a start before the job's."""
    house = site.job.house
    for step in site.job.steps:
        trade = site.job.trades[step.trade]
        pieces = site.times.pieces[step.id]
        if site.start(step) < max(site.job.start, site.job.now):
            yield f"{step.id} starts before the job does"
        yield from _in_hours(step, trade, pieces, house.noise)
        if not trade.hour_known:
            if [pieces[0][0], pieces[-1][1]] not in [[d.spans[0][0], d.spans[-1][1]] for d in trade.days]:
                yield f"{step.id} does not take {trade.name}'s whole window"
            continue
        if sum(b - a for a, b in pieces) != step.minutes:
            yield f"{step.id} has {sum(b - a for a, b in pieces)} min of work instead of {step.minutes}"
        if step.noisy and house.noise is not None and not all(_inside(piece, house.noise) for piece in pieces):
            yield f"{step.id} makes noise outside the hours the house allows"
        days = {_day(trade, piece) for piece in pieces}
        one_day = step.one_go or (house.lived_in and bool(step.services_off))
        if one_day and len(days) > 1:
            yield f"{step.id} does not lie within one day"
        yield from _stubs(step, trade, pieces)
    spans = [span for day in site.job.trades[site.job.hand_over_trade].days for span in day.spans]
    if not any(a <= site.times.hand_over <= b for a, b in spans):
        yield "hand-over lies outside working hours"


def _in_hours(step: Step, trade: Trade, pieces: tuple[Span, ...], noise: tuple[Span, ...] | None) -> Iterator[str]:
    while_it_lasts = (pieces[0][0], pieces[-1][1])
    spans = [span for day in trade.days for span in day.spans if overlap(span, while_it_lasts)]
    loud: tuple[tuple[float, float], ...] = ((-inf, inf),)
    if step.noisy and noise is not None:
        loud = tuple(span for span in noise if overlap(span, while_it_lasts))
    for number, (start, end) in enumerate(pieces):
        if end <= start:
            yield f"{step.id} has a piece that takes no time"
        if not any(a <= start and end <= b for a, b in spans):
            yield f"{step.id} lies outside the hours of {trade.name}"
        if number and start < pieces[number - 1][1]:
            yield f"{step.id} has pieces out of order"
    for (_, stops), (goes_on, _) in zip(pieces, pieces[1:], strict=False):
        if any(max(a, c, stops) < min(b, d, goes_on) for a, b in spans for c, d in loud):
            yield f"{step.id} pauses while {trade.name} is there"


def _inside(piece: Span, spans: tuple[Span, ...]) -> bool:
    return any(a <= piece[0] and piece[1] <= b for a, b in spans)


def _day(trade: Trade, piece: Span) -> int:
    return next((n for n, day in enumerate(trade.days) if day.spans[0][0] <= piece[0] < day.spans[-1][1]), -1)


def _stubs(step: Step, trade: Trade, pieces: tuple[Span, ...]) -> Iterator[str]:
    """No day of a step holds less than the shortest visit, unless the step is shorter."""
    least = min(trade.shortest_visit, step.minutes)
    by_day: dict[int, int] = {}
    for piece in pieces:
        by_day[_day(trade, piece)] = by_day.get(_day(trade, piece), 0) + piece[1] - piece[0]
    if any(minutes < least for minutes in by_day.values()):
        yield f"{step.id} brings {trade.name} for less than the shortest visit"
