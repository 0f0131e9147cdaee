"""A dangerous step without a caution."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.terms.hazards import HAZARDS
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe, RecipeStep


def remarks(recipe: Recipe) -> Iterator[Fault]:
    """Steps whose words mean a danger that no caution of the step or the recipe speaks of."""
    for step in recipe.steps:
        cautions = " ".join((*recipe.cautions, *step.cautions))
        for hazard in HAZARDS:
            sign = hazard.signs.search(_words(step))
            if sign and not hazard.heeded.search(cautions):
                what = f'"{step.name}" means {hazard.name} ("{sign.group()}"), and no caution speaks of it'
                yield Fault(step.place, what, f"add a caution, such as: {hazard.write}")


def _words(step: RecipeStep) -> str:
    """What is done, unless somebody only looks at it or measures it."""
    return f"{step.name} {step.title}" if step.kind == "work" else ""
