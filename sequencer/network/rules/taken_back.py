"""A state that a step takes back does not stand until it is given again: who needs it keeps out of that time."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.model import Claim, OneAtATime, Rule, Why
from sequencer.terms.hearing import given_again, given_wait, takers_of


def rules(case: Case) -> Iterator[Rule]:
    """A pair of claims for each step that needs a state and each time that state is away."""
    for step in case.job.steps:
        for need in (*step.needs, *step.follows):
            for taker in takers_of(case.job, step, need.word):
                for giver in given_again(case.job, taker, need.word):
                    wait = given_wait(giver, need.word)
                    away = Claim(taker.id, case.by_clock(giver, wait) if wait else None, giver.id)
                    text = f"{taker.title} takes back {need.word}"
                    yield OneAtATime((away, Claim(step.id)), Why("material", text, need.place, taker.id))
