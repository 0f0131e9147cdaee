"""`recipes`: the recipes a job can use, and one of them in a given air."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, WRONG, say
from sequencer.cli.give import give
from sequencer.terms.recipe import Recipe


def run(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_recipe_library
    from sequencer.views.recipe_sheet import list_as_json, recipe_as_json, recipe_list, recipe_sheet

    folder = Path(arguments.job)
    recipes = read_recipe_library(folder if folder.is_dir() else folder.parent)
    if arguments.what == "list":
        give(list_as_json(recipes) if arguments.json else recipe_list(recipes), arguments)
        return DONE
    recipe = recipes.get(arguments.name or "")
    if recipe is None:
        said = f'there is no recipe "{arguments.name}"' if arguments.name else "show which recipe?"
        say(f"{said}; write one of: {', '.join(sorted(recipes))}")
        return WRONG
    if arguments.air or arguments.start or arguments.table or arguments.curve:
        return _recipe_in_air(recipe, arguments)
    give(recipe_as_json(recipe) if arguments.json else recipe_sheet(recipe), arguments)
    return DONE


def _recipe_in_air(recipe: Recipe, arguments: argparse.Namespace) -> int:
    from datetime import date

    from sequencer.answers.in_air import in_air
    from sequencer.files.moment import air_said, parse_moment
    from sequencer.files.wrong import Wrong
    from sequencer.views.recipe_air import recipe_in_air, recipe_in_air_as_json

    today = arguments.today or date.today()
    air = arguments.air or "18 C 60 %"
    try:
        start = parse_moment(arguments.start or "16:00", today)
        said = air_said(air, today)
    except Wrong as wrong:
        say(str(wrong))
        return WRONG
    told = air if arguments.air else f"{air} (assumed)"
    steps = in_air(recipe, said, start)
    if arguments.json:
        give(recipe_in_air_as_json(recipe, told, start, steps), arguments)
    else:
        give(recipe_in_air(recipe, told, start, steps, arguments.table, arguments.curve), arguments)
    return DONE
