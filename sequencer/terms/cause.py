"""What of a job can hold a step up, said so that it can be taken away: the handle between a rule and the files."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

CauseKind = Literal[
    "wait",
    "within",
    "closing",
    "air",
    "my order",
    "room",
    "person",
    "hands",
    "travel",
    "elsewhere",
    "days",
    "notice",
    "cushion",
    "shortest visit",
    "booking",
    "inspection",
    "delivery",
    "service",
    "one day",
    "noise",
    "access",
    "lift",
    "toilet",
    "look in",
    "fumes",
    "fumes at night",
    "decision",
]


@dataclass(frozen=True, order=True)
class Cause:
    """One thing in a job's files. `of`: whose it is, `what`: which of them, where there are several.

    wait, within: of a step, for a purpose. closing, inspection, booking: of a step.
    air: of a step, the place of its limit. my order: of the listener, the giver. room: of a room, that it takes one
    step at a time. person: of a trade, all that keeps it from coming; hands, travel, elsewhere (needed by another job),
    days, notice, cushion, shortest visit: of a trade, one such thing each. delivery: of an order. decision: of a
    decision. service: of a service. toilet: of the step that takes it away. look in, fumes: of a step. one day, noise,
    access, lift, fumes at night: of the house.
    """

    kind: CauseKind
    of: str
    what: str = ""
