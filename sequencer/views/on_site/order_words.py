"""Orders and decisions in words: what to order and whom to ask by when, what should come."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.terms.minute import Minute
from sequencer.views.on_site.days import Day


def order_words(day: Day, until: Minute) -> Iterator[str]:
    """What there is to order by a moment, or late already, and what comes from the day on until then."""
    clock = day.clock
    for order in day.plan.orders:
        needed = f"needed {clock.at(order.needed)}"
        if order.needed <= day.start:
            continue
        if order.order_by is None and day.start < order.arrives <= until:
            yield f"{order.item} should be here by {clock.by(order.arrives)}: look it over; {needed}"
        elif order.order_by is not None and day.start < order.order_by <= until:
            yield f"order {order.item} by {clock.by(order.order_by)}, {needed}"
        elif order.order_by is not None and order.order_by <= day.start and order.state == "to order":
            yield f"order {order.item} now, it is late for it; {needed}"


def decision_words(day: Day, until: Minute) -> Iterator[str]:
    """What somebody has to decide, and is to be asked by a moment, or late already."""
    clock = day.clock
    for one in day.plan.decisions:
        if one.ask_by is None or one.decided or one.ask_by > until:
            continue
        by = f"by {clock.by(one.ask_by)}" if one.ask_by > day.start else "now, it is late for it"
        yield f"ask the {one.by} {by}: {one.id}, needed {clock.at(one.needed)}"
