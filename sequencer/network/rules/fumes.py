"""Fumes keep people out: nobody else works in the room, or behind it, before they are gone; and by night, if asked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.later import later
from sequencer.network.model import (
    AllowedStarts,
    Claim,
    Mask,
    Minutes,
    OneAtATime,
    Rule,
    StartTest,
    Why,
)
from sequencer.terms.cause import Cause
from sequencer.terms.hearing import same_use
from sequencer.terms.job import Step
from sequencer.terms.minute import Span
from sequencer.waits.progress import NEVER


def rules(case: Case) -> Iterator[Rule]:
    """A pair of claims for each step with fumes and each other step near it; allowed starts where they must be gone."""
    house = case.job.house
    ways = {room.name: case.way_in(room.name) for room in case.job.rooms}
    for step in case.job.steps:
        if step.fumes is None or step.where is not None:
            continue
        cause = Cause("fumes", step.id)
        stays = later(step.fumes.minutes)
        why = Why("material", f"{step.title}: fumes in the room", step.fumes.place, step.id, cause)
        for room in (room for room, way in ways.items() if step.room in way):
            for other in case.job.steps_in(room):
                if other.id != step.id and _kept_out(step, other):
                    yield OneAtATime((Claim(step.id, stays), Claim(other.id)), why)
        if house.fumes_gone:
            text = f"fumes of {step.title} have to be gone by {house.fumes_words}"
            gone = Why("house", text, house.place_of("fumes"), None, Cause("fumes at night", ""))
            yield AllowedStarts(step.id, _gone_by(house.fumes_gone, step.fumes.minutes), gone)


def _kept_out(step: Step, other: Step) -> bool:
    """True if fumes of a step keep out another one near it; what its own waits name goes on."""
    if other.where is not None or other.stands == "elsewhere":
        return False
    return not same_use(step, other) or step.wait_for(other.name) is None


def _gone_by(nights: tuple[Span, ...], minutes: int) -> StartTest:
    opens = np.array([*(start for start, _ in nights), NEVER], dtype=np.int64)
    closes = np.array([end for _, end in nights], dtype=np.int64)

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return np.asarray(ends + minutes <= opens[np.searchsorted(closes, starts, side="right")])

    return allowed
