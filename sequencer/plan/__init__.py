"""The finished plan: frozen, complete, everything a view may say. Times are UTC minutes."""

from __future__ import annotations

from sequencer.plan.site import Closed, PlannedDecision, PlannedOrder, StillToCome, UnderWay
from sequencer.plan.steps import After, PlannedStep, Ready, WaitedFor
from sequencer.plan.visits import Beside, CalledOff, Elsewhere, GivenUp, Visit
from sequencer.plan.whole import AIR_AT_ONCE, DRIER_AIR, Goal, Plan, Plans

__all__ = [
    "AIR_AT_ONCE",
    "DRIER_AIR",
    "After",
    "Beside",
    "CalledOff",
    "Closed",
    "Elsewhere",
    "GivenUp",
    "Goal",
    "Plan",
    "PlannedDecision",
    "PlannedOrder",
    "PlannedStep",
    "Plans",
    "Ready",
    "StillToCome",
    "UnderWay",
    "Visit",
    "WaitedFor",
]
