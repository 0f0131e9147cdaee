"""Everything as early as it can be: a cost for every minute a step starts later, different for each step.

The weight is 1,000,000 plus a hash of the step's id below 999,983, so that no two plans cost the same by chance.
"""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256

from sequencer.network.case import Case
from sequencer.network.model import HAND_OVER, CountedCost, Rule

BASE, SPREAD = 1_000_000, 999_983


def rules(case: Case) -> Iterator[Rule]:
    """A cost for every step and for hand-over."""
    for id in (*(step.id for step in case.job.steps), HAND_OVER):
        yield CountedCost(id, weight(id))


def weight(id: str) -> int:
    """The weight of a step's start."""
    return BASE + int.from_bytes(sha256(id.encode()).digest()[:8], "big") % SPREAD
