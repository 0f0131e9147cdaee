"""What is carried by the lift is carried while it is booked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Span


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step that carries by the lift."""
    house = case.job.house
    if house.lift is not None:
        booked = _inside(house.lift)
        for step in case.job.steps:
            if step.lift:
                text = f"the lift is not booked for {step.title} sooner"
                why = Why("house", text, house.place_of("lift"), None, Cause("lift", ""))
                yield AllowedStarts(step.id, booked, why)


def _inside(spans: tuple[Span, ...]) -> StartTest:
    opens = np.array([start for start, _ in spans], dtype=np.int64)
    closes = np.array([end for _, end in spans], dtype=np.int64)

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        if not len(opens):
            return np.zeros(len(starts), dtype=np.bool_)
        span = np.searchsorted(opens, starts, side="right") - 1
        return np.asarray((span >= 0) & (ends <= closes[np.maximum(span, 0)]))

    return allowed
