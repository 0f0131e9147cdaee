"""What costs most days in a new job, and could be otherwise: each is planned again with that one thing changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from sequencer.answers.new_job.build_ups import recipes_of
from sequencer.answers.new_job.wishes import Wishes
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits
from sequencer.terms.minute import Minute
from sequencer.terms.recipe import Recipe, RecipeStep
from sequencer.terms.words import INSPECTOR

MOST = 3
"""So many things are shown."""


@dataclass(frozen=True)
class Switch:
    """One thing that could be otherwise: in words, what it asks, and the job as it then is."""

    name: str
    words: str
    asks: str
    wishes: Wishes


@dataclass(frozen=True)
class Saving:
    """A switch with the hand-over it brings, and how much sooner that is [min]."""

    switch: Switch
    finish: Minute
    sooner: int


def savings(
    wishes: Wishes, plan: Plan, library: Mapping[str, Recipe], planned: Callable[[Wishes], Plan]
) -> tuple[Saving, ...]:
    """The switches that bring hand-over forward, those that save most first, `MOST` at most."""
    found = []
    for switch in switches(wishes, library):
        try:
            finish = planned(switch.wishes).finish
        except NoOrderFits:
            continue
        if finish < plan.finish:
            found.append(Saving(switch, finish, plan.finish - finish))
    return tuple(sorted(found, key=lambda saving: (-saving.sooner, saving.switch.name))[:MOST])


def switches(wishes: Wishes, library: Mapping[str, Recipe]) -> list[Switch]:
    """What could be otherwise in a job as it is wished for."""
    used = [(room.name, library[name]) for room in wishes.rooms for name in recipes_of(room) if name in library]
    found = []
    if not wishes.helper:
        found.append(Switch("helper", "a second pair of hands", "a helper all through", replace(wishes, helper=True)))
    if not wishes.saturday:
        asked = "your Saturdays"
        found.append(Switch("saturday", "work on Saturdays", asked, replace(wishes, saturday=True)))
    if not wishes.looks_itself and any(step.trade == INSPECTOR for _, recipe in used for step in recipe.steps):
        asked = "only where the local code asks for no inspector; you look yourself and write it down"
        found.append(Switch("no-inspections", "no inspector here", asked, replace(wishes, looks_itself=True)))
    quick = {(room, recipe.name): way for room, recipe in used if (way := quickest(recipe)) is not None}
    if new := {key: way for key, way in quick.items() if key not in wishes.ways}:
        names = ", ".join(sorted({f"{recipe} ({way})" for (_, recipe), way in new.items()}))
        faster = replace(wishes, ways={**new, **wishes.ways})
        found.append(Switch("rapid", "rapid products", names, faster))
    return found


def quickest(recipe: Recipe) -> str | None:
    """The way of a recipe whose layers stand least, by their reference hours; None if the usual way is that."""
    hours = {way.name: _stands(recipe.done(way.name).steps) for way in recipe.ways}
    best = min(hours, key=lambda name: (hours[name], name), default=None)
    return best if best is not None and hours[best] < _stands(recipe.steps) else None


def _stands(steps: tuple[RecipeStep, ...]) -> float:
    return sum(wait.hours + sum(stage.hours for stage in wait.then) for step in steps for wait in step.waits)
