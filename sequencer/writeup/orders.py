"""Orders: when to place them, when they arrive, when they are needed."""

from __future__ import annotations

import numpy as np

from sequencer.network.rules.deliveries import lead
from sequencer.plan import PlannedOrder
from sequencer.terms.arranged import Order
from sequencer.terms.minute import Minute
from sequencer.writeup.timed import Timed, at


def planned_orders(timed: Timed) -> tuple[PlannedOrder, ...]:
    """Every order of the job, by need, then name."""
    orders = [_planned(timed, order) for order in timed.case.job.orders]
    return tuple(sorted(orders, key=lambda order: (order.needed, order.id)))


def _planned(timed: Timed, order: Order) -> PlannedOrder:
    job = timed.case.job
    needed = min(timed.start(step) for step in order.for_steps)
    order_by: Minute | None
    if order.made_after is not None:
        measured = timed.end(order.made_after)
        arrives, order_by = at(lead(job.working_days, order.lead_days), measured), measured
    else:
        arrives = job.start if order.arrives is None else order.arrives
        order_by = None if order.ordered is not None else _order_by(timed, order, needed)
        if order_by is not None:
            arrives = max(arrives, at(lead(job.working_days, order.lead_days), order_by - 1))
    state = "ordered" if order.ordered is not None else "to order"
    told = job.told.needed(order.name, order.for_steps) if job.told is not None else None
    then = job.told.orders.get(order.name) if job.told is not None else None
    told_order_by = then.order_by if then is not None else None
    return PlannedOrder(order.name, order.item, order_by, arrives, needed, order.for_steps, state, told, told_order_by)


def _order_by(timed: Timed, order: Order, needed: Minute) -> Minute:
    """The end of the last working day on which an order still arrives in time."""
    days = timed.case.job.working_days
    ends = np.array([end for _, end in days], dtype=np.int64)
    in_time = ends[lead(days, order.lead_days)(ends - 1) <= needed]
    return int(in_time[-1]) if len(in_time) else timed.case.job.now
