"""What a recipe asks to be written down of a step that is done, and nothing in the site book answers to."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from sequencer.terms.job import Job, Step

SAYS_LITTLE: Final = frozenset(
    {"a", "an", "and", "at", "by", "each", "every", "from", "in", "is", "it", "its", "of", "on", "or", "the", "to"}
    | {"what", "where", "which", "who", "with"}
)
"""Words of what is to be written down that do not tell it from other things."""

TOLD_BY_ITSELF: Final = frozenset({"time", "when", "passed"})
"""What every fact says of itself."""


def missing(job: Job) -> Iterator[tuple[Step, tuple[str, ...]]]:
    """The steps that are told to be done, with what their recipe asks to be written down and no fact answers to."""
    for step in job.steps:
        facts = [fact for fact in job.facts if fact.about == step.id]
        if any(fact.kind in ("done", "passed") for fact in facts):
            said = {word for fact in facts for word in _words(fact.words)}
            asked = tuple(item for item in step.record if not _words(item) & (said | TOLD_BY_ITSELF))
            if asked:
                yield step, asked


def _words(text: str) -> frozenset[str]:
    """The words of a text that tell something, without the mark of more than one."""
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(word.removesuffix("s") for word in words if word not in SAYS_LITTLE)
