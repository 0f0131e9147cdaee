"""What a recipe asks to be written down of a step that is done, and nothing in the site book answers to."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final

from sequencer.air.hourly import HourAir, RoomAir
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job, Step

SAYS_LITTLE: Final = frozenset(
    {"a", "an", "and", "at", "by", "each", "every", "from", "in", "is", "it", "its", "of", "on", "or", "the", "to"}
    | {"what", "where", "which", "with"}
)
"""Words of what is to be written down that do not tell it from other things."""

TOLD_BY_ITSELF: Final = frozenset({"time", "when", "passed"})
"""What every fact says of itself."""

OF_THE_AIR: Final = frozenset({"temperature", "humidity", "air"})
"""What a reading of the room's air says."""

WHO: Final = "who"
"""Any words with a fact that ends a step are taken to say this."""

ENDS: Final = ("done", "passed", "failed")


def missing(job: Job, airs: Mapping[str, RoomAir]) -> Iterator[tuple[Step, tuple[str, ...]]]:
    """The steps that are told to be done, with what their recipe asks to be written down and no fact answers to.

    A fact about the step answers by a word of what is asked; a meter that read the room's air answers for the air.
    """
    for step in job.steps:
        facts = [fact for fact in job.facts if fact.about == step.id]
        end = next((fact for fact in facts if fact.kind in ENDS), None)
        if end is not None:
            said = _said(facts, airs[step.room].at(end.happened))
            asked = tuple(item for item in step.record if not _words(item) & said)
            if asked:
                yield step, asked


def _said(facts: list[Fact], air: HourAir) -> frozenset[str]:
    """The words the facts about a step answer to."""
    words = {word for fact in facts for word in _words(fact.words)}
    read = air.how_temperature == air.how_humidity == "reading"
    who = {WHO} if any(fact.words for fact in facts if fact.kind in ENDS) else set()
    return frozenset(words | TOLD_BY_ITSELF | (OF_THE_AIR if read else set()) | who)


def _words(text: str) -> frozenset[str]:
    """The words of a text that tell something, without the mark of more than one."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(word.removesuffix("s") for word in words if word not in SAYS_LITTLE)
