"""A wait without a range: nothing says how far it may go either way."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe
from sequencer.terms.wait import Wait
from sequencer.waits.table import LAWS

UNCERTAIN = ("no source", "from memory", "judgement")
"""Words of a source that prescribes nothing: its hours are somebody's experience, and experience has a range."""


def remarks(recipe: Recipe) -> Iterator[Fault]:
    """Waits with no range of their own, by laws without one, whose hours no standard prescribes."""
    for step in recipe.steps:
        for wait in step.waits:
            if wait.low == wait.high and not _scatters(wait) and any(word in wait.source for word in UNCERTAIN):
                what = f'the wait of "{step.name}" for "{wait.purpose}" has no range, and no standard prescribes it'
                yield Fault(wait.place, what, "say how far it goes either way: 0.7 to 1.5 times")


def _scatters(wait: Wait) -> bool:
    return any(LAWS[stage.law].scatter > 0 for stage in (wait, *wait.then))
