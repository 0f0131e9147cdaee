"""The other ways a recipe can be done, in words: what each costs more, and what is different step by step."""

from __future__ import annotations

from sequencer.terms.recipe import Costs, Recipe, Way
from sequencer.views.lines import wrapped
from sequencer.views.recipe_words import step_words


def ways_of(recipe: Recipe, width: int) -> list[str]:
    """The lines of all other ways; none if there is one way only."""
    lines: list[str] = []
    for way in recipe.ways:
        lines += ["", *wrapped(f"ANOTHER WAY: {way.name}: {way.title}{costs_words(way.costs)}", width, "", "  ")]
        for text in _different(recipe, way):
            lines += wrapped(text, width, "  ", "    ")
    return lines


def costs_words(costs: Costs | None) -> str:
    """`, costs 60 more (this job)`; nothing where the costs are not known."""
    if costs is None:
        return ""
    return f", costs {abs(costs.more):g} {'less' if costs.more < 0 else 'more'} ({costs.source})"


def _different(recipe: Recipe, way: Way) -> list[str]:
    """Every sentence of a changed step that the usual way does not have, and every one that falls away."""
    usual = {step.name: step for step in recipe.steps}
    lines = []
    for step in way.steps:
        before, after = step_words(usual[step.name], recipe.sources), step_words(step, recipe.sources)
        lines += [f"{step.name}: {step.title}"] * (step.title != usual[step.name].title)
        lines += [f"{step.name}: {text}" for text in after if text not in before]
        heads = [text.partition(":")[0] for text in after]
        lines += [f"{step.name}: no more {text}" for text in before[1:] if text.partition(":")[0] not in heads]
    return lines
