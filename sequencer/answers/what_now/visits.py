"""Visits of a new plan against those of the one before: what moves for whom."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from sequencer.plan import Plan
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute
from sequencer.terms.told import Told, ToldOrder, ToldVisit

TO_COME = ("planned",)
"""States of steps that still have a visit to come."""


@dataclass(frozen=True)
class VisitMove:
    """Steps of a visit that is still to come, those that move from one day to one day together.

    `was`: their start before, None: they are new; `starts`: now, None: gone. `state`: how far it is arranged now.
    `call_by`: the last moment their notice leaves, None if it leaves any.
    """

    trade: str
    steps: tuple[str, ...]
    was: Minute | None
    starts: Minute | None
    state: str
    call_by: Minute | None = None

    @property
    def moves(self) -> bool:
        return self.was != self.starts


def visit_moves(job: Job, told: Told, plan: Plan) -> tuple[VisitMove, ...]:
    """Every visit to come of one plan or the other, by its start before, else now, then trade."""
    known = {step.id for step in plan.steps}
    found = [move for visit in told.visits for move in _of(job, visit, told, plan, known)]
    before = {id for visit in told.visits for id in visit.steps}
    for visit in plan.visits:
        steps = tuple(id for id in visit.steps if id not in before and plan.step(id).state in TO_COME)
        if steps:
            start = min(plan.step(id).start for id in steps)
            found.append(VisitMove(visit.trade, steps, None, start, visit.state, visit.call_by))
    return tuple(sorted(found, key=lambda one: (one.was or one.starts or 0, one.trade)))


def as_told(plan: Plan) -> Told:
    """A plan as if people had been told it."""
    visits = tuple(ToldVisit(visit.id, visit.trade, visit.start, visit.steps) for visit in plan.visits)
    orders = {order.id: ToldOrder(order.needed, order.order_by) for order in plan.orders}
    return Told(0, plan.finish, {step.id: step.pieces for step in plan.steps}, visits, orders=orders)


def _of(job: Job, visit: ToldVisit, told: Told, plan: Plan, known: set[str]) -> list[VisitMove]:
    gone = tuple(id for id in visit.steps if id not in known)
    moves = [VisitMove(visit.trade, gone, min(told.starts[id] for id in gone), None, "released")] if gone else []
    for now in plan.visits:
        by_days: dict[tuple[int, int], list[str]] = {}
        for id in now.steps:
            if id in visit.steps and plan.step(id).state in TO_COME:
                was, starts = told.starts[id], plan.step(id).start
                days = (0, 0) if was == starts else (_day(job, was), _day(job, starts))
                by_days.setdefault(days, []).append(id)
        for steps in by_days.values():
            first = min(steps, key=lambda id: plan.step(id).start)
            was, starts = told.starts[first], plan.step(first).start
            moves.append(VisitMove(visit.trade, tuple(steps), was, starts, now.state, now.call_by))
    return moves


def _day(job: Job, moment: Minute) -> int:
    """The number of the local day that holds a moment."""
    return bisect_right(job.half_days[::2], moment)
