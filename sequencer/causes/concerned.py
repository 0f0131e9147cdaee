"""Whom of a few steps a cause may hold up."""

from __future__ import annotations

from sequencer.terms.cause import Cause
from sequencer.terms.job import Job


def concerns(job: Job, cause: Cause, steps: frozenset[str]) -> bool:
    """True if a cause may hold up one of these steps (ids): their own, their people's, their orders', the house's."""
    match cause.kind:
        case "wait" | "within" | "closing" | "air" | "inspection" | "booking" | "toilet" | "look in" | "fumes":
            return cause.of in steps
        case "my order":
            return {cause.of, cause.what} <= steps
        case "delivery":
            order = next(order for order in job.orders if order.name == cause.of)
            return bool(steps.intersection(order.for_steps))
        case "room":
            return any(job.step(id).room == cause.of for id in steps)
        case "decision":
            decision = next(one for one in job.decisions if one.name == cause.of)
            return bool(steps.intersection(decision.for_steps))
        case "service":
            return any(cause.of in job.step(id).services_off for id in steps)
        case "noise":
            return any(job.step(id).noisy for id in steps)
        case "lift":
            return any(job.step(id).lift for id in steps)
        case "one day" | "access" | "fumes at night":
            return True
        case _:
            return any(job.step(id).trade == cause.of for id in steps)
