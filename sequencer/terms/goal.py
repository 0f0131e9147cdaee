"""The goals of a plan, in the order in which each decides among the plans that are equal so far."""

from __future__ import annotations

from typing import Final

HAND_OVER_GOAL: Final = "hand-over"
TOLD_VISITS_MOVED: Final = "told visits moved"
VISITS: Final = "visits"
SOONEST_GOAL: Final = "everything as early as it can be"
"""Names of goals. The milestones people who live there ask for are goals by their own names."""

KEEP_TOLD: Final = "told visits"
BACK_SOON: Final = "toilet and shower"
FEW_VISITS: Final = "few visits"

PREFERENCES: Final = (KEEP_TOLD, BACK_SOON, FEW_VISITS)
"""What decides between the earliest hand-over and everything as early as it can be; a job may say another order."""

AWAITED: Final = ("toilet back", "first shower")
"""Milestones that count as goals where people live, one after the other."""
