"""A brute force that starts from files and air: every start on the grid, depth first, the audit the only judge.

Parts of a job are judged too: one step alone, two steps alone. What a part leaves out asks nothing of it, so what the
audit refuses in a part it refuses in every plan; so a start or a pair of starts is judged once and never tried again.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from pathlib import Path

import pytest
from drawn_jobs import drawn_job

from sequencer.air.hourly import RoomAir
from sequencer.audit import Times, audit, site
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import NoOrderFits, airs, plan_of
from sequencer.solve.grid import widths
from sequencer.terms.hearing import given_again, hearings, sibling
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute, Span

MOST_TRIES = 2_000_000
"""Pairs of starts looked at before a job counts as too large to try."""

Pieces = dict[str, tuple[Span, ...]]

GRID = 15
"""The usual grid [min], on which hand-over lies too; a step's own may be finer."""


class TooLarge(Exception):
    """A job with more starts than can be tried."""


def shortest(job: Job) -> int | None:
    """The half-day of the earliest hand-over, counted as the goal counts it; None if no plan keeps all rules."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site, "ready", lru_cache(maxsize=None)(site.ready))
        search = Search(job)
        last_of = {bisect_right(job.half_days, moment): moment for moment in search.hand_overs()}
        return next((half_day for half_day, moment in last_of.items() if search.fits(moment)), None)


class Search:
    """Every start of every step, those that the audit refuses alone left out."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.airs: dict[str, RoomAir] = airs(job)
        self.order = _in_order_of_hearing(job)
        ids = [step.id for step in self.order]
        self.alone = {id: _part(job, {id}) for id in ids}
        self.pairs = {(a, b): _part(job, {a, b}) for a, b in combinations(ids, 2)}
        self.late = self.hand_overs()[-1]
        self.widths = widths(build(Case(job, self.airs)))
        self.places = {
            step.id: [pieces for pieces in self._places(step) if self.sound(self.alone[step.id], {step.id: pieces})]
            for step in self.order
        }
        self.together: dict[tuple[str, Minute, str, Minute], bool] = {}
        self.tries = 0

    def hand_overs(self) -> list[Minute]:
        """Every moment of the grid at which the job may be handed over."""
        hours = [span for day in self.job.trades[self.job.hand_over_trade].days for span in day.spans]
        return self._on_grid(_shared(hours, self.job.house.access), GRID)

    def moments(self, trade: str, width: int = GRID) -> list[Minute]:
        """Every moment of the grid at which a trade works, the closes of its hours included."""
        return self._on_grid([span for day in self.job.trades[trade].days for span in day.spans], width)

    def _on_grid(self, spans: list[Span], width: int) -> list[Minute]:
        first = max(self.job.start, self.job.now)
        grid = range(-(-first // GRID) * GRID, self.job.horizon, width)
        return [at for at in grid if any(a <= at <= b for a, b in spans)]

    def fits(self, hand_over: Minute) -> bool:
        """True if some starts keep all rules with hand-over at this moment."""
        return self._place(0, {}, self.in_time(hand_over), hand_over)

    def in_time(self, hand_over: Minute) -> dict[str, list[tuple[Span, ...]]]:
        """The runs of work each step can have with hand-over at this moment."""
        return {
            id: [pieces for pieces in places if self.sound(self.alone[id], {id: pieces}, hand_over)]
            for id, places in self.places.items()
        }

    def sound(self, job: Job, times: Pieces, hand_over: Minute | None = None) -> bool:
        """True if the audit finds nothing in a part of a job."""
        return not audit(job, self.airs, Times(times, self.late if hand_over is None else hand_over))

    def _place(self, depth: int, placed: Pieces, in_time: dict[str, list[tuple[Span, ...]]], hand_over: Minute) -> bool:
        if depth == len(self.order):
            return self.sound(self.job, placed, hand_over)
        id = self.order[depth].id
        return any(
            self._place(depth + 1, {**placed, id: pieces}, in_time, hand_over)
            for pieces in in_time[id]
            if all(self.goes_with(other, placed[other], id, pieces) for other in placed)
        )

    def goes_with(self, one: str, its: tuple[Span, ...], other: str, pieces: tuple[Span, ...]) -> bool:
        """True if two steps go together."""
        self.tries += 1
        if self.tries > MOST_TRIES:
            raise TooLarge
        key = (one, its[0][0], other, pieces[0][0])
        if key not in self.together:
            self.together[key] = self.sound(self.pairs[one, other], {one: its, other: pieces})
        return self.together[key]

    def _places(self, step: Step) -> Iterator[tuple[Span, ...]]:
        """Every run of work a step can have: from each start on the grid, through its trade's hours, to its end."""
        trade, house = self.job.trades[step.trade], self.job.house
        noise, access = house.noise if step.noisy else None, house.access if step.where is None else None
        firm = [booking.at for booking in self.job.bookings if booking.step == step.id]
        if not trade.hour_known:
            yield from (spans for day in trade.days if (spans := tuple(_shared(day.spans, access))))
            return
        spans = _shared(_shared([span for day in trade.days for span in day.spans], noise), access)
        for start in firm or self.moments(step.trade, self.widths[step.id]):
            pieces, left = [], step.minutes
            for a, b in spans:
                if b > start and left and (pieces or a <= start):
                    piece = (max(a, start), min(b, max(a, start) + left))
                    pieces.append(piece)
                    left -= piece[1] - piece[0]
            if pieces and not left:
                yield tuple(pieces)


def _shared(spans: Iterable[Span], allowed: tuple[Span, ...] | None) -> list[Span]:
    """What of spans lies in others; all of them if there are no others."""
    if allowed is None:
        return list(spans)
    return [(max(a, c), min(b, d)) for a, b in spans for c, d in allowed if max(a, c) < min(b, d)]


def _heard(job: Job) -> dict[str, set[str]]:
    """For every step the steps it hears or is made after."""
    before: dict[str, set[str]] = {step.id: set() for step in job.steps}
    for hearing in hearings(job):
        before[hearing.listener.id].add(hearing.giver.id)
    for order in job.orders:
        for id in order.for_steps if order.made_after else ():
            before[id].add(str(order.made_after))
    return before


def _in_order_of_hearing(job: Job) -> list[Step]:
    before, found = _heard(job), list[Step]()
    while len(found) < len(job.steps):
        placed = {step.id for step in found}
        found.append(next(s for s in job.steps if s.id not in placed and before[s.id] <= placed))
    return found


def _part(job: Job, placed: set[str]) -> Job:
    """The job of some steps alone; what hangs on a step that is not among them asks nothing yet, and a firm visit of
    such a step brings its trade as it will."""
    before = _heard(job)
    steps = tuple(_alone(job, step, placed, before[step.id] <= placed) for step in job.steps if step.id in placed)
    orders = tuple(
        replace(order, for_steps=tuple(id for id in order.for_steps if id in placed))
        for order in job.orders
        if order.made_after is None or order.made_after in placed
    )
    decisions = tuple(
        replace(one, for_steps=tuple(id for id in one.for_steps if id in placed)) for one in job.decisions
    )
    absences = tuple(one for one in job.house.absences if {one.off, one.back} <= placed)
    house = replace(job.house, absences=absences)
    return replace(job, steps=steps, orders=orders, decisions=decisions, house=house)


def _alone(job: Job, step: Step, placed: set[str], hears: bool) -> Step:
    closing = step.closing
    if closing is not None and closing.until_done is not None and sibling(step, closing.until_done) not in placed:
        closing = None
    mends = {mend.id for back in step.takes_back for mend in given_again(job, step, back.word)}
    return replace(
        step,
        links=tuple(link for link in step.links if link.id in placed),
        needs=step.needs if hears else (),
        takes_back=step.takes_back if mends <= placed else (),
        closing=closing,
    )


@dataclass(frozen=True)
class Compared:
    """Half-days of hand-over, None where no order fits: of the plan, and of the brute force on the same firm visits.

    `given_up`: how many firm visits the plan gives up. `more_fit`: whether some order fits with one more of them kept.
    """

    planned: int | None
    tried: int | None
    given_up: int = 0
    more_fit: bool = False

    @property
    def agree(self) -> bool:
        return self.planned == self.tried and not self.more_fit


def compare(seed: int, folder: Path) -> Compared:
    """Writes a random job, reads, plans and tries it. Faulty if its files are; AssertionError if nothing is proven."""
    job = drawn_job(seed, folder)
    try:
        plan = plan_of(job)
    except NoOrderFits as none:
        assert str(none).startswith("No order of work fits")
        return Compared(None, shortest(job.with_bookings(())))
    assert plan.proven
    kept = tuple(booking for booking in job.bookings if booking.step not in {one.step for one in plan.released})
    given_up = len(job.bookings) - len(kept)
    fuller = combinations(job.bookings, len(kept) + 1)
    without = (replace(job, bookings=more, cushion_used=frozenset(visit.step for visit in more)) for more in fuller)
    more_fit = any(shortest(one) is not None for one in without)
    used = replace(job, cushion_used=frozenset(plan.cushions_used))
    return Compared(plan.goals[0].value, shortest(used.with_bookings(kept)), given_up, more_fit)
