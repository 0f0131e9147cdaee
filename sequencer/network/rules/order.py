"""A step follows what it must: the step above it, the job's own order, and every state it needs."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.model import Order, Rule, WaitFor, Why
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Step
from sequencer.terms.wait import Wait


def rules(case: Case) -> Iterator[Rule]:
    """An order for every end of work that is heard, a wait for every ready."""
    for hearing in hearings(case.job):
        if hearing.wait is None:
            yield Order(hearing.giver.id, hearing.listener.id, _after_work(hearing))
        else:
            clock = case.clock(hearing.giver, hearing.wait)
            yield WaitFor(hearing.giver.id, hearing.listener.id, clock.ready, stands(hearing.giver, hearing.wait))


def stands(giver: Step, wait: Wait) -> Why:
    """The words for a layer that stands until it is ready."""
    purpose = f"for {wait.purpose}" if wait.purpose != "next" else "for the next step"
    return Why("material", f"{giver.title}: ready {purpose} no sooner", wait.place, giver.id)


def _after_work(hearing: Hearing) -> Why:
    giver = hearing.giver
    if giver.kind == "hold":
        return Why("inspection", f"{giver.title}: has to pass first", hearing.where, giver.id)
    by = ", by your order" if hearing.reason == "my order" else ""
    return Why("people", f"{giver.title}: done no sooner{by}", hearing.where, giver.id)
