"""What a step does to its room keeps away from layers that do not bear it yet."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.closing import closing_claim
from sequencer.network.later import later
from sequencer.network.model import Claim, OneAtATime, Rule, Why
from sequencer.terms.cause import Cause, CauseKind
from sequencer.terms.job import Step
from sequencer.terms.practice import DISTURBANCES, MAKES


def rules(case: Case) -> Iterator[Rule]:
    """A pair of claims for each layer and each step in its room that disturbs it."""
    for room in case.job.rooms:
        steps = [step for step in case.job.steps_in(room.name) if step.where is None]
        makers = {word: [(step, lingers(step, word)) for step in steps] for word in DISTURBANCES}
        for layer in steps:
            for word, claim in tender(case, layer).items():
                kind: CauseKind = "wait" if layer.wait_for(word) else "closing"
                text = f"{layer.title} does not bear {word} yet"
                why = Why("material", text, layer.place, layer.id, Cause(kind, layer.id, word))
                for maker, stays in makers[word]:
                    if maker.id != layer.id and stays is not None:
                        yield OneAtATime((claim, Claim(maker.id, later(stays) if stays else None)), why)


def tender(case: Case, layer: Step) -> dict[str, Claim]:
    """The disturbances a step's layer does not bear, each with the claim from its start until it does."""
    claims = {
        wait.purpose: Claim(layer.id, case.by_clock(layer, wait))
        for wait in layer.waits
        if wait.purpose in DISTURBANCES
    }
    if layer.wet_film and "dust" not in claims:
        claims["dust"] = closing_claim(case, layer)
    return claims


def lingers(maker: Step, word: str) -> int | None:
    """How long a disturbance stays after a step's work [min]; None if the step does not make it."""
    return max((stays for made, stays in (MAKES[m] for m in maker.makes) if made == word), default=None)
