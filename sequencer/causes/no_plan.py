"""There is no plan: said at once, and which rules collide when somebody asks."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property

from sequencer.network.model import Why
from sequencer.solve import NoAnswer
from sequencer.terms.job import Job

NO_ORDER, NONE_FOUND = "No order of work fits all the rules.", "No order of work was found that fits."
TOO_DAMP = "In the air that wet layers make none fits, without them one would; a fan or a dehumidifier helps."
"""What is said where only the water of layers lets no order fit."""


class NoOrderFits(Exception):
    """No order of work fits all the rules; `sentences` say so and name what found no place, or which rules collide.

    `collide` looks for these rules, which takes seconds: it is asked when the sentences are read for the first time.
    """

    def __init__(self, sentences: tuple[str, ...], collide: Callable[[], tuple[str, ...]] = tuple) -> None:
        super().__init__("\n".join(sentences))
        self._first = sentences
        self._collide = collide

    @property
    def certain(self) -> bool:
        """True if none was ruled out; False if none was found."""
        return NONE_FOUND not in self._first

    @cached_property
    def sentences(self) -> tuple[str, ...]:
        """What to tell."""
        colliding = self._collide()
        return (NO_ORDER, *colliding) if colliding else self._first


def first_sentences(job: Job, none: NoAnswer) -> tuple[str, ...]:
    """What is known as soon as the search has ended: how certain it is, the steps that found no place, and where none
    was found the steps that came too late again and again."""
    steps = {step.id: step for step in job.steps}
    blocked = [steps[id] for id in none.blocked if id in steps]
    first = NO_ORDER if none.certain else NONE_FOUND
    late = (_too_late(why) for why in dict.fromkeys(window.why for window in none.windows))
    return (first, *(f"{step.title} ({step.id}) finds no place: {step.place}" for step in blocked), *late)


def _too_late(why: Why) -> str:
    where = f": {why.where}" if why.where else ""
    return f"{why.text}, and came too late again and again{where}"
