"""A recipe in a room with what the job changes in it."""

from __future__ import annotations

from sequencer.files.border import checked
from sequencer.files.job_model import UseModel
from sequencer.files.library import Library
from sequencer.files.recipe import RecipeFile
from sequencer.files.recipe_model import StepModel
from sequencer.files.sources import Sources
from sequencer.files.tree import Table
from sequencer.files.uses import Use
from sequencer.files.wrong import nearest
from sequencer.terms.place import Fault, Place
from sequencer.terms.words import OWN_TRADE

HERE = "this job"
"""The source of a changed number that names none."""


def use_of(room: str, name: str, model: UseModel, place: Place, library: Library, faults: list[Fault]) -> Use:
    """A use of a recipe; without steps, and with a fault, if there is no such recipe."""
    wanted = model.recipe or name
    if wanted not in library.names:
        faults.append(Fault(place, f'no recipe is called "{wanted}"', nearest(wanted, library.names)))
        return Use(room, name, place, model, None, None)
    file = library.file(wanted)
    if file is None:
        return Use(room, name, place, model, None, None)
    if wrong := _part_faults(model, file):
        faults.extend(wrong)
        return Use(room, name, place, model, None, None)
    changes = _changes(model.change, file, faults) if model.change is not None else {}
    if model.by is not None and all((step.by or OWN_TRADE) != OWN_TRADE for step in file.model.steps.values()):
        faults.append(Fault(place, f'"by" changes nothing: no step of "{wanted}" is yours', "leave it out"))
    return Use(room, name, place, model, file, file.made(faults, changes, model.by))


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


def _changes(table: Table, file: RecipeFile, faults: list[Fault]) -> dict[str, StepModel]:
    changes: dict[str, StepModel] = {}
    sources = Sources(file.sources, HERE)
    if not table:
        faults.append(Fault(table.place, "the change changes nothing", "name a step and what is different"))
    for key in table.texts():
        node = table[key]
        if key not in file.model.steps:
            what = f'"{key}" is no step of "{file.name}", so the change hits nothing'
            faults.append(Fault(key.place, what, nearest(key, file.model.steps)))
        elif not isinstance(node, Table) or not node:
            what = f'the change of "{key}" says nothing'
            faults.append(Fault(key.place, what, "write a key of the step with its value"))
        elif (change := checked(StepModel, node, faults, sources=sources)) is not None:
            changes[str(key)] = change
    return changes
