"""States that recipes share: one that nobody gives, and two words for one state."""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import SequenceMatcher

from sequencer.terms.hearing import where_and_what
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Named, Recipe

ALIKE = 0.9
"""Two words are taken for one, mistyped, when this share of their letters agrees; common practice, no source."""


def remarks(recipe: Recipe, library: tuple[Recipe, ...]) -> Iterator[Fault]:
    """States of a recipe that no recipe of the library gives, or that it gives under a word very like another's."""
    given = {given.state for other in library for step in other.steps for given in step.gives}
    for named in _asked(recipe):
        _, state = where_and_what(named.word, "")
        if state in given:
            continue
        near = next((other for other in sorted(given) if _same(state, other)), None)
        if near:
            yield Fault(named.place, f'"{state}" and "{near}" look like two words for one state', f'write "{near}"')
        else:
            write = "name a state that is given, or let a recipe give it"
            yield Fault(named.place, f'no recipe gives "{state}"', write)
    for step in recipe.steps:
        for gives in step.gives:
            near = next((other for other in sorted(given - {gives.state}) if _same(gives.state, other)), None)
            if near:
                what = f'"{gives.state}" and "{near}" look like two words for one state'
                yield Fault(gives.place, what, f'write "{near}" in both, or words that differ more')


def _asked(recipe: Recipe) -> list[Named]:
    return [named for step in recipe.steps for named in (*step.needs, *step.follows)]


def _same(one: str, other: str) -> bool:
    """The same words in another order, number or spelling: "board fixed", "boards fixed", "fixed boards"."""
    mine, theirs = _stems(one), _stems(other)
    if len(mine) != len(theirs):
        return False
    pairs = list(zip(mine, theirs, strict=True))
    return all(a == b or SequenceMatcher(None, a, b).ratio() >= ALIKE for a, b in pairs)


def _stems(state: str) -> list[str]:
    words = re.findall(r"\w+", state.lower())
    return sorted(word.removesuffix("s") for word in words if word not in ("the", "a", "is", "are"))
