"""A capitalised word inside a sentence: it may be a brand, and a recipe holds for the material, not for its maker."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sequencer.terms.place import Fault
from sequencer.terms.recipe import Recipe
from sequencer.terms.words import ABBREVIATIONS, PROPER

CAPITALISED = re.compile(r"(?<=[a-z0-9,;)] )[A-Z][\w-]+|\b\w+[\u00ae\u2122]")


def remarks(recipe: Recipe) -> Iterator[Fault]:
    """Words that begin with a capital though no sentence begins there; sources may name standards and works."""
    texts = [(recipe.place, text) for text in (recipe.title, recipe.covers, *recipe.cautions)]
    for step in recipe.steps:
        said = (step.title, step.trade, step.if_too_late or "", step.hold or "", *step.cautions, *step.record)
        texts += [(step.place, text) for text in said]
    for place, text in texts:
        for word in CAPITALISED.findall(text):
            if word not in ABBREVIATIONS and word not in PROPER:
                yield Fault(place, f'"{word}" looks like a brand', "name the material in plain words")
