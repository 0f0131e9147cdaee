"""What now: facts are put into a job, it is planned again, and set against what people were told.

Where nobody was told a plan yet, it is set against the plan without these facts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial

from sequencer.answers.beside import OtherJob, others_moved
from sequencer.answers.on_site.site import on_site
from sequencer.answers.on_site.waiting_hour import WaitingHour, waiting_hours
from sequencer.answers.what_now.moves import Before, Moves, moves
from sequencer.answers.what_now.visits import VisitMove, visit_moves
from sequencer.answers.what_now.whom import CallNow, calls_now
from sequencer.plan import Elsewhere, Plan, PlannedOrder
from sequencer.terms.fact import CLIENT, Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, Span
from sequencer.terms.told import Told

GAP_DAYS = 5
"""Days of a gap that are looked through for what could be pulled into it."""

Tell = Callable[[str], None]


@dataclass(frozen=True)
class OrderMove:
    """An order needed at another moment than before. `order_by`: by when it was to be placed then, None: it was, or
    nobody said."""

    order: PlannedOrder
    was: Minute
    order_by: Minute | None


@dataclass(frozen=True)
class WhatNow:
    """The answer. `before`: what people were told, or the plan without the facts (`told` False).

    `pulled`: ids of steps that come sooner now. `gap`: hours of one's own that nothing fills yet, and what could be
    done in them; `elsewhere`: what of other jobs is done in it. `beside`: the other jobs. `calls`: whom to call, in
    that order; `untold`: visits that move and of which nobody knows yet.
    """

    facts: tuple[Fact, ...]
    moves: Moves
    before: Told
    told: bool
    visits: tuple[VisitMove, ...]
    orders: tuple[OrderMove, ...]
    pulled: tuple[str, ...]
    gap: tuple[WaitingHour, ...]
    elsewhere: tuple[Elsewhere, ...]
    beside: tuple[OtherJob, ...]
    calls: tuple[CallNow, ...]

    @property
    def untold(self) -> tuple[VisitMove, ...]:
        called = {visit for call in self.calls for visit in call.visits}
        return tuple(one for one in self.visits if one.moves and one not in called and one.trade != CLIENT)

    @property
    def plan(self) -> Plan:
        return self.moves.plan


def what_now(
    job: Job, changed: Job, facts: tuple[Fact, ...], before: Before, effort: float = 1.0, told: Tell = lambda _: None
) -> WhatNow:
    """What is different where a job has other facts. `before`: what is known. NoOrderFits if nothing fits then."""
    found = moves(job, changed, before, effort, told)
    visits = visit_moves(found.job, before.plan, found.plan)
    know, client = _know(job, found.plan, before)
    return WhatNow(
        facts=facts,
        moves=found,
        before=before.plan,
        told=before.told,
        visits=visits,
        orders=_orders(before.plan, found.plan),
        pulled=tuple(move.id for move in found.moved if move.was and move.starts and move.starts < move.was),
        gap=_gap(found, visits),
        elsewhere=_elsewhere(found, visits),
        beside=others_moved(job, found.plan, effort, told) if job.beside else (),
        calls=calls_now(found.job, visits, facts, know, client),
    )


def _know(job: Job, plan: Plan, before: Before) -> tuple[frozenset[str], bool]:
    """Steps whose trade knows its day, and whether the client has to hear: of a day they were told, or promised."""
    arranged = {booking.step for booking in job.bookings} | set(job.asked)
    if before.told:
        told = {id for visit in before.plan.visits for id in visit.steps}
        return frozenset(arranged | told), _day(job, plan.finish) != _day(job, before.plan.finish)
    late = plan.promise is not None and max(before.plan.finish, plan.promise) < plan.finish
    return frozenset(arranged), late


def _orders(before: Told, plan: Plan) -> tuple[OrderMove, ...]:
    """Orders that are still to come and needed at another moment now."""
    found = []
    for order in plan.orders:
        was, then = before.needed(order.id, order.steps), before.orders.get(order.id)
        if was not in (None, order.needed) and order.needed > plan.as_of:
            found.append(OrderMove(order, was or 0, then.order_by if then is not None else None))
    return tuple(found)


def _gap(found: Moves, visits: tuple[VisitMove, ...]) -> tuple[WaitingHour, ...]:
    """Free hours from the first visit that comes later to its new day, where something could be done in them."""
    gap = _span(visits)
    if gap is None:
        return ()
    start, end = gap
    site = cache(partial(on_site, found.job, found.plan))
    days = _days(found.job, max(start, found.job.now), end)[:GAP_DAYS]
    hours = (hour for day in days for hour in waiting_hours(found.job, found.plan, day, site))
    return tuple(hour for hour in hours if hour.fillers)


def _span(visits: tuple[VisitMove, ...]) -> Span | None:
    """From the first visit that comes later, as it was, to its new day; None if none does."""
    later = [(one.was, one.starts) for one in visits if one.was and one.starts and one.starts > one.was]
    return min(later, default=None)


def _elsewhere(found: Moves, visits: tuple[VisitMove, ...]) -> tuple[Elsewhere, ...]:
    gap, own = _span(visits), found.job.hand_over_trade
    if gap is None:
        return ()
    return tuple(one for one in found.plan.elsewhere if one.trade == own and one.start < gap[1] and one.end > gap[0])


def _days(job: Job, start: Minute, end: Minute) -> list[Span]:
    return [day for day in job.working_days if day[1] > start and day[0] < end]


def _day(job: Job, moment: Minute) -> int:
    return sum(midnight <= moment for midnight in job.half_days[::2])
