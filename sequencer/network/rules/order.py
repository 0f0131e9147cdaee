"""A step follows what it must: the step above it, the job's own order, and every state it needs."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.model import Order, Rule, WaitFor, Why
from sequencer.terms.cause import Cause
from sequencer.terms.hearing import Hearing
from sequencer.terms.job import Step
from sequencer.terms.practice import COVERS, DISTURBANCES
from sequencer.terms.wait import Wait
from sequencer.terms.words import CLIENT


def rules(case: Case) -> Iterator[Rule]:
    """An order for every end of work that is heard, a wait for every ready."""
    for hearing in case.hearings:
        if hearing.wait is None:
            yield Order(hearing.giver.id, hearing.listener.id, _after_work(hearing))
        else:
            ready = case.by_clock(hearing.giver, hearing.wait)
            yield WaitFor(hearing.giver.id, hearing.listener.id, ready, stands(hearing.giver, hearing.wait))


def stands(giver: Step, wait: Wait) -> Why:
    """The words for a layer that stands until it is ready."""
    cause = Cause("wait", giver.id, wait.purpose)
    return Why("material", f"{giver.title}: {_stands_for(wait.purpose)}", wait.place, giver.id, cause)


def _stands_for(purpose: str) -> str:
    """What a layer does until it is ready, as a use of it or as what only its next step hears."""
    return f"ready for {purpose} no sooner" if purpose in (*DISTURBANCES, *COVERS) else "has to stand first"


def _after_work(hearing: Hearing) -> Why:
    giver = hearing.giver
    if giver.kind == "hold":
        cause = Cause("inspection", giver.id)
        return Why("inspection", passes(giver), hearing.where, giver.id, cause)
    if hearing.reason != "my order":
        return Why("people", f"{giver.title}: done no sooner", hearing.where, giver.id)
    cause = Cause("my order", hearing.listener.id, giver.id)
    return Why("people", f"{giver.title}: done no sooner, by your order", hearing.where, giver.id, cause)


def passes(hold: Step) -> str:
    """What a hold waits for: to pass, or a client's yes."""
    return f"{hold.title}: {'the client has to say yes' if hold.trade == CLIENT else 'has to pass'} first"
