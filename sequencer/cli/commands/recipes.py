"""`recipes`: the recipes a job can use, and one of them in a given air."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, WRONG, say
from sequencer.cli.give import give
from sequencer.terms.recipe import Recipe


def run(arguments: argparse.Namespace) -> int:
    from sequencer.files import read_recipe_library
    from sequencer.files.wrong import nearest
    from sequencer.views.recipe_sheet import list_as_json, recipe_as_json, recipe_list, recipe_sheet

    job = Path(arguments.job)
    folder = job if job.is_dir() else job.parent
    recipes = read_recipe_library(folder)
    if arguments.what == "list":
        give(list_as_json(recipes) if arguments.json else recipe_list(recipes), arguments)
        return DONE
    if arguments.what == "check" and not arguments.name:
        return _check(list(recipes.values()), recipes, arguments)
    recipe = recipes.get(arguments.name or "")
    if recipe is None:
        said = f'there is no recipe "{arguments.name}"' if arguments.name else f"{arguments.what} which recipe?"
        near = nearest(arguments.name or "", recipes)
        advice = near if near.startswith('write "') else "sequencer recipes lists them"
        say(f"{said}; {advice}")
        return WRONG
    if arguments.what == "check":
        return _check([recipe], recipes, arguments)
    if arguments.what == "copy":
        return _copy(recipe.name, folder, arguments)
    if arguments.air or arguments.start or arguments.area or arguments.table or arguments.curve:
        return _recipe_in_air(recipe, arguments)
    give(recipe_as_json(recipe) if arguments.json else recipe_sheet(recipe), arguments)
    return DONE


def _check(asked: list[Recipe], library: dict[str, Recipe], arguments: argparse.Namespace) -> int:
    from sequencer.answers.remarks import remarks
    from sequencer.views.checked import check_as_json, recipes_checked

    found = remarks(asked, library.values())
    give(check_as_json(None, (), found) if arguments.json else recipes_checked(asked, found), arguments)
    return WRONG if found else DONE


def _copy(name: str, folder: Path, arguments: argparse.Namespace) -> int:
    """Writes a recipe that came with the program beside the job, to be changed there; never over one's own."""
    from sequencer.desk.write import write_new
    from sequencer.files.library import OWN, recipe_text
    from sequencer.files.written import JOB_FILE

    target = Path(arguments.output) if arguments.output else folder / OWN / f"{name}.yaml"
    octets = recipe_text(name, folder).encode()
    if target.exists() or not (arguments.dry_run or write_new(target, octets)):
        say(f"{target} is there already; change it there, or write it elsewhere with -o")
        return WRONG
    say(f"would write {len(octets)} bytes to {target}" if arguments.dry_run else f"{target} written")
    if not arguments.output and not (folder / JOB_FILE).exists():
        say(f"no {JOB_FILE} stands here yet: a job uses the recipes beside it")
    return DONE


def _recipe_in_air(recipe: Recipe, arguments: argparse.Namespace) -> int:
    from datetime import date

    from sequencer.answers.in_air import AREA, in_air
    from sequencer.files.moment import NO_PLACE, air_said, parse_moment
    from sequencer.files.quantities import parse_area
    from sequencer.files.wall_clock import calendar_of, usual_days
    from sequencer.files.wrong import Wrong
    from sequencer.network.hours import Openings
    from sequencer.views.recipe_air import Asked, recipe_in_air, recipe_in_air_as_json

    today = arguments.today or date.today()
    air = arguments.air or "18 C 60 %"
    calendar = calendar_of(Path(arguments.job))
    try:
        area = parse_area(arguments.area) if arguments.area else AREA
        start = parse_moment(arguments.start or "16:00", today, calendar)
        said = air_said(air, today, calendar)
    except Wrong as wrong:
        say(str(wrong))
        return WRONG
    zone = None if calendar is NO_PLACE else calendar.zone.key
    asked = Asked(air if arguments.air else f"{air} (assumed)", start, zone, area)
    steps = in_air(recipe, said, start, Openings(usual_days(calendar.day(start), calendar)), area)
    if arguments.json:
        give(recipe_in_air_as_json(recipe, asked, steps), arguments)
    else:
        give(recipe_in_air(recipe, asked, steps, arguments.table, arguments.curve), arguments)
    return DONE
