"""A recipe in a room: its steps, once or part by part, and how other words of the job point at them."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.files.job_model import UseModel
from sequencer.files.job_texts import Part
from sequencer.files.recipe_file import RecipeFile
from sequencer.files.wrong import nearest
from sequencer.terms.place import Fault, Place
from sequencer.terms.recipe import Recipe


@dataclass(frozen=True)
class Use:
    """One recipe in one room, under a lasting name. `recipe`: with the job's changes; None if it cannot be read."""

    room: str
    name: str
    place: Place
    model: UseModel
    file: RecipeFile | None
    recipe: Recipe | None

    @property
    def parts(self) -> tuple[Part | None, ...]:
        return self.model.parts or (None,)

    def id(self, part: str | None, step: str) -> str:
        """The lasting id of a step."""
        return f"{self.room}/{self.name}{f' {part}' if part else ''}/{step}"

    def ids(self, part: str | None) -> list[str]:
        """The ids of a part's steps, in order."""
        return [self.id(part, step.name) for step in self.recipe.steps] if self.recipe else []


@dataclass(frozen=True)
class Target:
    """What a reference means: steps of one use, part by part. `step`: it names a single step of each part."""

    use: Use
    groups: tuple[tuple[str, ...], ...]
    step: bool

    @property
    def last(self) -> str:
        """The step after which all of it is done."""
        return self.groups[-1][-1]

    @property
    def ids(self) -> tuple[str, ...]:
        return tuple(id for group in self.groups for id in group)


def find(words: str, place: Place, uses: list[Use], room: str | None, faults: list[Fault]) -> list[Target]:
    """What `use`, `use step`, `use part`, `use part step`, each with a room before it if need be, point at.

    `room`: where it is written, None outside of rooms; then every room that has such a use is meant. Nothing, and a
    fault, if there is no such thing; nothing alone if its recipe cannot be read.
    """
    rooms = {use.room for use in uses}
    first, _, rest = words.partition(" ")
    here = [use for use in uses if room is None or use.room == room]
    if not any(use.name == first for use in here) and first in rooms and rest:
        here = [use for use in uses if use.room == first]
        first, _, rest = rest.partition(" ")
    found = [use for use in here if use.name == first]
    if not found:
        names = [use.name for use in here]
        faults.append(Fault(place, f'"{first}" is no recipe of {_where(here, room)}', nearest(first, names)))
    targets = [_within(use, rest, place, faults) for use in found if use.recipe is not None]
    return [target for target in targets if target is not None]


def _where(here: list[Use], room: str | None) -> str:
    rooms = sorted({use.room for use in here})
    return f'the room "{rooms[0]}"' if len(rooms) == 1 else f'the room "{room}"' if room else "this job"


def _within(use: Use, rest: str, place: Place, faults: list[Fault]) -> Target | None:
    parts = [part.name for part in use.parts if part is not None]
    groups = tuple(tuple(use.ids(part.name if part else None)) for part in use.parts)
    if not rest:
        return Target(use, groups, False)
    assert use.recipe is not None
    steps = [step.name for step in use.recipe.steps]
    for at, part in enumerate(parts):
        if rest == part:
            return Target(use, (groups[at],), False)
        if rest.startswith(f"{part} ") and rest[len(part) + 1 :] in steps:
            return Target(use, ((use.id(part, rest[len(part) + 1 :]),),), True)
    if rest in steps:
        return Target(use, tuple((use.id(part.name if part else None, rest),) for part in use.parts), True)
    faults.append(Fault(place, f'"{rest}" is no step of "{use.name}"', nearest(rest, [*parts, *steps])))
    return None
