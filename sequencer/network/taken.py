"""The words for what two steps cannot have at once: a surface, a room, a pair of hands."""

from __future__ import annotations

from sequencer.network.model import Claim, Why
from sequencer.terms.cause import Cause


def taken_by(what: Why, claim: Claim, title: str, closed: bool) -> Why:
    """Why a step waits for a claim: `what` names the thing, or is a sentence on the step it names.

    `closed`: the claim goes on after the work is done.
    """
    if what.step == claim.task:
        return what
    if what.step is not None:
        settled = ", and the air clear again" if closed else ""
        return Why("people", f"{title}: done no sooner{settled}", what.where, claim.task, what.cause)
    if closed:
        cause = Cause("closing", claim.task)
        return Why("material", f"{title}: keeps {what.text} closed", what.where, claim.task, cause)
    return Why("people", f"{title}: has {what.text} first", what.where, claim.task, what.cause)
