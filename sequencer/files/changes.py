"""A recipe in a room with what the job changes in it."""

from __future__ import annotations

from dataclasses import replace

from sequencer.files.changed_steps import changed_steps
from sequencer.files.job_model import UseModel
from sequencer.files.library import Library
from sequencer.files.recipe_file import RecipeFile
from sequencer.files.sources import Sources
from sequencer.files.uses import Use
from sequencer.files.way_chosen import HERE, way_chosen, with_own_costs
from sequencer.files.wrong import nearest
from sequencer.terms.place import Fault, Place
from sequencer.terms.words import OWN_TRADE

NAMED = 6
"""So many recipes are named where none is near."""


def use_of(room: str, name: str, model: UseModel, place: Place, library: Library, faults: list[Fault]) -> Use:
    """A use of a recipe; without steps, and with a fault, if there is no such recipe."""
    wanted = model.recipe or name
    if wanted not in library.names:
        faults.append(Fault(place, f'no recipe is called "{wanted}"', nearest(wanted, library.names, _some(library))))
        return Use(room, name, place, model, None, None)
    file = library.file(wanted)
    if file is None:
        return Use(room, name, place, model, None, None)
    if wrong := _part_faults(model, file):
        faults.extend(wrong)
        return Use(room, name, place, model, None, None)
    own = Sources(file.sources, HERE)
    steps = file.model.steps
    changes = changed_steps(model.change, wanted, steps, own, faults) if model.change is not None else {}
    way = way_chosen(model.use, wanted, list(file.ways), faults)
    if model.use is not None and way is None:
        return Use(room, name, place, model, file, None)
    if model.by is not None and all((step.by or OWN_TRADE) != OWN_TRADE for step in steps.values()):
        faults.append(Fault(place, f'"by" changes nothing: no step of "{wanted}" is yours', "leave it out"))
    made = file.made(faults, changes, model.by, way)
    ways = with_own_costs(made.ways, model.costs, model.use, faults)
    return Use(room, name, place, model, file, replace(made, ways=ways))


def _some(library: Library) -> str:
    return f"write {', '.join(library.names[:NAMED])} or another one that sequencer recipes lists"


def _part_faults(model: UseModel, file: RecipeFile) -> list[Fault]:
    parts = model.parts or ()
    faults = []
    for at, part in enumerate(parts):
        if part.name in file.model.steps:
            what = f'the part "{part.name}" is called like a step of "{file.name}"'
            faults.append(Fault(part.place, what, "give the part another name"))
        if any(part.name == other.name for other in parts[:at]):
            faults.append(Fault(part.place, f'the part "{part.name}" stands here twice', "keep one of the two"))
    return faults
