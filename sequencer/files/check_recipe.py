"""What a recipe must mean, whatever job it is used in."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.files.wrong import listed, nearest
from sequencer.terms.laws import TAKING_WATER
from sequencer.terms.place import Fault, Place
from sequencer.terms.practice import AFTERWARDS, DISTURBANCES
from sequencer.terms.recipe import Recipe, RecipeStep


def followed(recipe: Recipe, at: int) -> tuple[tuple[str, str | None, Place], ...]:
    """The steps of its recipe that step number `at` starts after: name, what they must be ready for, place.

    The step above (or what `after` names instead) is heard through its wait keyed by this step's name, else `next`,
    else by its end of work; any other step with a wait keyed by this step's name is heard too.
    """
    step = recipe.steps[at]
    by_name = {each.name: each for each in recipe.steps}
    above: tuple[tuple[str, str | None, Place], ...] = ((recipe.steps[at - 1].name, None, step.place),) if at else ()
    said = step.after if step.after is not None else above
    found = [(name, purpose or _heard(by_name.get(name), step), place) for name, purpose, place in said]
    named = {name for name, _, _ in found}
    found += [
        (each.name, step.name, step.place)
        for each in recipe.steps
        if each.name not in named and any(wait.purpose == step.name for wait in each.waits)
    ]
    return tuple(found)


def _heard(giver: RecipeStep | None, step: RecipeStep) -> str | None:
    purposes = [wait.purpose for wait in giver.waits] if giver is not None else []
    return next((purpose for purpose in (step.name, "next") if purpose in purposes), None)


def recipe_faults(recipe: Recipe) -> list[Fault]:
    """Names that do not meet, waits nobody hears, states taken for good, closings without their wait."""
    return [fault for check in (_names, _waits, _looked_after, _waters, _closings, _taken) for fault in check(recipe)]


def _names(recipe: Recipe) -> Iterator[Fault]:
    names = [step.name for step in recipe.steps]
    by_name = {step.name: step for step in recipe.steps}
    for step in recipe.steps:
        for name, purpose, place in step.after or ():
            if name not in by_name:
                yield Fault(place, f'"{name}" is no step of this recipe', nearest(name, names))
            elif purpose is not None and all(wait.purpose != purpose for wait in by_name[name].waits):
                yield _no_wait(place, name, purpose, by_name[name])
        for named in step.if_failed:
            if named.word not in by_name:
                yield Fault(named.place, f'"{named.word}" is no step of this recipe', nearest(named.word, names))
        if step.if_failed and step.hold is None:
            yield Fault(step.if_failed[0].place, "only a hold can fail", "add hold:, or leave out if failed:")


def _no_wait(place: Place, name: str, purpose: str, giver: RecipeStep) -> Fault:
    has = listed((f'"{wait.purpose}"' for wait in giver.waits), "or")
    advice = f"write {has}, or add it there" if has else f"add it to its ready for:, as {purpose}: after 24 h, fixed"
    return Fault(place, f'"{name}" has no wait until it is ready for "{purpose}"', advice)


def _waits(recipe: Recipe) -> Iterator[Fault]:
    heard: set[tuple[str, str]] = set()
    for at in range(len(recipe.steps)):
        heard |= {(name, purpose) for name, purpose, _ in followed(recipe, at) if purpose is not None}
    for step in recipe.steps:
        heard |= {(step.name, given.purpose) for given in step.gives if given.purpose is not None}
        if step.closing is not None and step.closing.purpose is not None:
            heard.add((step.name, step.closing.purpose))
        for given in step.gives:
            if given.purpose is not None and all(wait.purpose != given.purpose for wait in step.waits):
                yield _no_wait(given.place, step.name, given.purpose, step)
        for wait in step.waits:
            if wait.purpose == step.name:
                yield Fault(wait.place, f'"{step.name}" waits for itself', "name another step")
    for step in recipe.steps:
        for wait in step.waits:
            if wait.purpose not in (*DISTURBANCES, *AFTERWARDS) and (step.name, wait.purpose) not in heard:
                yield Fault(
                    wait.place,
                    f'nobody hears the wait "{wait.purpose}" of "{step.name}"',
                    f"name a step or a use, or let something wait: after: {step.name} ready for {wait.purpose}",
                )


def _looked_after(recipe: Recipe) -> Iterator[Fault]:
    followed_by_some = {name for at in range(len(recipe.steps)) for name, _, _ in followed(recipe, at)}
    for step in recipe.steps:
        if step.look_in is not None and step.name not in followed_by_some:
            what = f'nothing of this recipe follows "{step.name}", so looking in has no end'
            yield Fault(step.look_in.place, what, "add the step that ends it, or leave out look in:")


def _waters(recipe: Recipe) -> Iterator[Fault]:
    for step in recipe.steps:
        if step.water is None:
            continue
        wait = next((wait for wait in step.waits if wait.purpose == step.water.purpose), None)
        if wait is None:
            yield _no_wait(step.water.place, step.name, step.water.purpose, step)
        elif wait.law in TAKING_WATER or wait.then:
            what = f'the layer of "{step.name}" does not give off its water evenly until "{wait.purpose}"'
            yield Fault(step.water.place, what, "name a wait without stages, and not by the sealant law")


def _closings(recipe: Recipe) -> Iterator[Fault]:
    names = [step.name for step in recipe.steps]
    for step in recipe.steps:
        closing = step.closing
        if closing is not None and closing.purpose is not None:
            if all(wait.purpose != closing.purpose for wait in step.waits):
                yield _no_wait(closing.place, step.name, closing.purpose, step)
        elif closing is not None and closing.until_done is not None and closing.until_done not in names:
            what = f'"{closing.until_done}" is no step of this recipe'
            yield Fault(closing.place, what, nearest(closing.until_done, names))
        if step.wet_film and closing is None and all(wait.purpose != "dust" for wait in step.waits):
            yield Fault(
                step.place,
                f'nothing says how long the wet film of "{step.name}" must be kept from dust',
                "add a wait for dust, or keep off: until ready for ...",
            )


def _taken(recipe: Recipe) -> Iterator[Fault]:
    for at, step in enumerate(recipe.steps):
        for taken in step.takes_back:
            if all(given.state != taken.word for later in recipe.steps[at:] for given in later.gives):
                yield Fault(
                    taken.place,
                    f'"{taken.word}" is taken back and never given again',
                    f"let a later step of this recipe give it: gives: [{taken.word}]",
                )
