"""A recipe as a sheet to read: its steps with hours, waits, limits and closings, and where each number comes from."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from typing import Any

from sequencer.terms.place import Place
from sequencer.terms.recipe import Recipe
from sequencer.views.as_json import document
from sequencer.views.lines import wrapped
from sequencer.views.recipe_ways import ways_of
from sequencer.views.recipe_words import step_words

WIDTH = 80


def recipe_list(recipes: dict[str, Recipe], width: int = WIDTH) -> str:
    """One line a recipe: its name and title, and what it covers."""
    longest = max(map(len, recipes), default=0)
    lines: list[str] = []
    for name in sorted(recipes):
        recipe = recipes[name]
        covers = f" ({recipe.covers})" if recipe.covers else ""
        lines += wrapped(f"{name:{longest}}  {recipe.title}{covers}", width, "", " " * (longest + 2))
    return "".join(f"{line}\n" for line in lines)


def recipe_sheet(recipe: Recipe, width: int = WIDTH) -> str:
    """The whole recipe."""
    lines = wrapped(f"{recipe.title} [{recipe.name}]", width)
    if recipe.covers:
        lines += wrapped(f"covers: {recipe.covers}", width, "  ", "    ")
    if recipe.cable is not None:
        letter = {words: letter for letter, words in recipe.sources.items()}[recipe.cable.source]
        keeps = f"cable: cannot be cut; keeps {1000 * recipe.cable.margin:.0f} mm off the walls ({letter})"
        lines += wrapped(keeps, width, "  ", "    ")
    for step in recipe.steps:
        lines += ["", *wrapped(f"{step.name}: {step.title}", width)]
        for text in step_words(step, recipe.sources):
            lines += wrapped(text, width, "  ", "    ")
    lines += ways_of(recipe, width)
    sources = [f"({letter}) {words}" for letter, words in sorted(recipe.sources.items())]
    for heading, texts in (("SOURCES", sources), ("TAKE CARE", list(recipe.cautions))):
        if texts:
            lines += ["", heading, *(line for text in texts for line in wrapped(text, width, "  ", "    "))]
    return "".join(f"{line}\n" for line in lines)


def list_as_json(recipes: dict[str, Recipe]) -> str:
    """The list as JSON."""
    named = [{"name": one.name, "title": one.title, "covers": one.covers} for _, one in sorted(recipes.items())]
    return document("recipes", recipes=named)


def recipe_as_json(recipe: Recipe) -> str:
    """The recipe as JSON, places as file:line:column."""
    return document("recipe", recipe=_flat(recipe))


def _flat(value: Any) -> Any:
    if isinstance(value, Place):
        return str(value)
    if is_dataclass(value):
        return {field.name: _flat(getattr(value, field.name)) for field in fields(value)}
    return [_flat(inner) for inner in value] if isinstance(value, tuple) else value
