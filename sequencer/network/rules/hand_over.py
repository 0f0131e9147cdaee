"""Hand-over is the last step: everything is done, and every layer is ready for what the job lists."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.model import HAND_OVER, Order, Rule, WaitFor, Why
from sequencer.network.rules.order import passes, stands
from sequencer.terms.cause import Cause
from sequencer.terms.job import Step


def rules(case: Case) -> Iterator[Rule]:
    """An order from every step, and a wait for every layer that must be ready."""
    for step in case.job.steps:
        yield Order(step.id, HAND_OVER, _done(step))
        for wait in step.waits:
            if wait.purpose in case.job.hand_over_needs:
                yield WaitFor(step.id, HAND_OVER, case.by_clock(step, wait), stands(step, wait))


def _done(step: Step) -> Why:
    if step.kind == "hold":
        cause = Cause("inspection", step.id)
        return Why("inspection", passes(step), step.place, step.id, cause)
    return Why("people", f"{step.title} comes first", step.place, step.id)
