"""Whom to call, about which visit, by when: counted back from the visit, and what keeps its day from being sure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sequencer.plan import Plan, PlannedStep, Visit
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute
from sequencer.terms.practice import CALLS_AHEAD, SURE_AHEAD

NEXT = {"pencilled": "ask", "released": "ask", "asked": "settle", "firm": "remind"}
"""What the next call is about, by how far the visit is arranged."""


@dataclass(frozen=True)
class Unsure:
    """What in front of a visit is not nearly certain: a step or an order, and why."""

    id: str
    why: str


@dataclass(frozen=True)
class Call:
    """The next call about a visit. `about`: ask, settle (a firm day) or remind. `by`: its last moment.

    `notice`: `by` is what their notice or their office leaves, not a custom. `unsure`: what is in front of it and not
    nearly certain. `when`: by when each call of the visit is made, those long past included.
    """

    visit: Visit
    about: str
    by: Minute
    notice: bool
    unsure: tuple[Unsure, ...]
    when: dict[str, Minute]


def calls(job: Job, plan: Plan, now: Minute) -> tuple[Call, ...]:
    """The next call about every visit that is still to come, soonest first."""
    coming = (visit for visit in plan.visits if visit.start > now and visit.state in NEXT)
    found = (_call(job, plan, visit, now) for visit in coming)
    return tuple(sorted(found, key=lambda one: (one.by, one.visit.start, one.visit.id)))


def _call(job: Job, plan: Plan, visit: Visit, now: Minute) -> Call:
    """Who is told only days ahead (an office with a last hour for asking) gets that one call."""
    by_office = bool(job.trades[visit.trade].ask_by)
    when = {about: _before(job, visit.start, days) for about, days in CALLS_AHEAD.items()}
    about = "ask" if by_office and visit.state != "firm" else NEXT[visit.state]
    by, notice = when[about], False
    if visit.call_by is not None and about != "remind" and (by_office or visit.call_by < by):
        by, notice = visit.call_by, True
    return Call(visit, about, by, notice, tuple(_unsure(job, plan, visit, now)), {**when, about: by})


def _before(job: Job, start: Minute, days: int) -> Minute:
    """The end of the last working day that lies so many days before a visit's day, or earlier."""
    ends = [end for _, end in job.working_days if end <= start - (days - 1) * DAY]
    return ends[-1] if ends else min(job.now, start)


def _unsure(job: Job, plan: Plan, visit: Visit, now: Minute) -> Iterator[Unsure]:
    """A day is nearly certain if all in front of it that ends in the days before it is done, one's own, or firm.

    An inspection still to pass is not, nor what is not ordered or would come only on the visit's own day.
    """
    starts = [start for start, _ in job.working_days if start <= visit.start]
    since = starts[-SURE_AHEAD - 1] if len(starts) > SURE_AHEAD else plan.start
    states = {id: one.state for one in plan.visits for id in one.steps}
    for step in _in_front(plan, visit):
        if step.end <= max(since, now) or step.state in ("done", "under way"):
            continue
        if step.kind == "hold":
            yield Unsure(step.id, "has to pass first")
        elif states.get(step.id, "firm") not in ("firm", "done"):
            yield Unsure(step.id, f"{step.trade} is {states[step.id]} only")
    day = starts[-1] if starts else visit.start
    for order in plan.orders:
        if set(order.steps) & {*visit.steps, *(step.id for step in _in_front(plan, visit))} and order.needed > now:
            if order.state == "to order":
                yield Unsure(order.id, "not ordered yet")
            elif order.arrives > day:
                yield Unsure(order.id, "comes on the day itself")


def _in_front(plan: Plan, visit: Visit) -> list[PlannedStep]:
    """Every step the visit's steps follow, however far back, by start."""
    found: set[str] = set()
    todo = [after.id for id in visit.steps for after in plan.step(id).after]
    while todo:
        id = todo.pop()
        if id not in found:
            found.add(id)
            todo += [after.id for after in plan.step(id).after]
    return [step for step in plan.steps if step.id in found - set(visit.steps)]
