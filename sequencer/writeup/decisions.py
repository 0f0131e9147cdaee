"""Decisions: when each is needed, for a step or for an order that hangs on it, and by when to ask."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.plan import PlannedDecision, PlannedOrder
from sequencer.terms.arranged import Decision
from sequencer.terms.minute import Minute
from sequencer.writeup.timed import Timed


def planned_decisions(timed: Timed, orders: Iterable[PlannedOrder]) -> tuple[PlannedDecision, ...]:
    """Every decision of the job, by need, then name."""
    job, order_by = timed.case.job, {order.id: order.order_by for order in orders}
    found = []
    for decision in job.decisions:
        hanging = (order_by[order.name] for order in job.orders if order.decision == decision.name)
        found.append(_planned(timed, decision, [by for by in hanging if by is not None]))
    return tuple(sorted(found, key=lambda decision: (decision.needed, decision.id)))


def _planned(timed: Timed, decision: Decision, order_by: list[Minute]) -> PlannedDecision:
    needed = min([*(timed.start(step) for step in decision.for_steps), *order_by], default=timed.case.job.horizon)
    ask_by = None if decision.decided else _ask_by(timed, decision, needed)
    return PlannedDecision(decision.name, decision.by, ask_by, needed, decision.for_steps, decision.decided)


def _ask_by(timed: Timed, decision: Decision, needed: Minute) -> Minute:
    """The end of the last working day that leaves them their days; at once where there is none."""
    job = timed.case.job
    before = [end for _, end in job.working_days if end <= needed]
    in_time = before[: len(before) - decision.ask_days]
    return in_time[-1] if in_time else job.now
