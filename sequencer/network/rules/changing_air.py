"""Air that is to change by a moment: the steps it begins with are done by then."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.minute import Minute


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step that has to be done by the moment its air begins."""
    for switch in case.job.switches:
        if switch.done_by and switch.at is not None:
            for id in switch.steps:
                text = f"{case.job.step(id).title} brings the air that what follows needs"
                yield AllowedStarts(id, _done_by(switch.at), Why("material", text, switch.place))


def _done_by(moment: Minute) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(ends <= moment)

    return allowed
