"""The demo job, its plan a week before it starts, who follows whom in it; and every recipe that is shipped."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

from sequencer.files import read_job, read_recipe_library
from sequencer.plan import Plan
from sequencer.planning import plan_for
from sequencer.terms.hearing import hearings
from sequencer.terms.job import Job
from sequencer.terms.recipe import Recipe, RecipeStep

ROOT = Path(__file__).parent.parent
DEMO = ROOT / "docs" / "demo"
WEEK_BEFORE = date(2027, 1, 25)


@cache
def demo() -> Job:
    return read_job(DEMO, WEEK_BEFORE)


@cache
def demo_plan() -> Plan:
    return plan_for(DEMO, WEEK_BEFORE)


@cache
def library() -> dict[str, Recipe]:
    return read_recipe_library()


def every_step() -> list[tuple[Recipe, RecipeStep]]:
    return [(recipe, step) for recipe in library().values() for step in recipe.steps]


def step_of(recipe: str, name: str) -> RecipeStep:
    return next(step for step in library()[recipe].steps if step.name == name)


def follows(job: Job, earlier: str, later: str, without: str | None = None) -> bool:
    """True if `later` must wait for `earlier`, by links and by states other than `without`."""
    graph: dict[str, set[str]] = {}
    for hearing in hearings(job):
        if hearing.reason != without:
            graph.setdefault(hearing.giver.id, set()).add(hearing.listener.id)
    found: set[str] = set()
    todo = [f"bathroom/{earlier}"]
    while todo:
        new = graph.get(todo.pop(), set()) - found
        found |= new
        todo.extend(new)
    return f"bathroom/{later}" in found
