"""What the people in the house ask for: a service is never off for longer than they allow."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step that takes a service off."""
    house = case.job.house
    for step in case.job.steps:
        for service in step.services_off:
            if service in house.services:
                text = f"{service} may be off for {house.services[service]} min at a time"
                why = Why("house", text, house.place, None, Cause("service", service))
                yield AllowedStarts(step.id, _no_longer(house.services[service]), why)


@lru_cache(maxsize=64)
def _no_longer(minutes: int) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(ends - starts <= minutes)

    return allowed
