"""Changes to the steps of a recipe: in a job's `change`, or in another way of the recipe itself."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from sequencer.files.border import checked
from sequencer.files.recipe_model import StepModel
from sequencer.files.sources import Sources
from sequencer.files.tree import Table
from sequencer.files.wrong import nearest
from sequencer.terms.place import Fault


def changed_steps(
    table: Table, recipe: str, steps: Iterable[str], sources: Sources, faults: list[Fault]
) -> dict[str, StepModel]:
    """The keys a change gives to steps of a recipe; a change that hits nothing goes to `faults`."""
    changes: dict[str, StepModel] = {}
    known = list(steps)
    if not table:
        faults.append(Fault(table.place, "the change changes nothing", "name a step and what is different"))
    for key in table.texts():
        node = table[key]
        if key not in known:
            what = f'"{key}" is no step of "{recipe}", so the change hits nothing'
            faults.append(Fault(key.place, what, nearest(key, known)))
        elif not isinstance(node, Table) or not node:
            what = f'the change of "{key}" says nothing'
            faults.append(Fault(key.place, what, "write a key of the step with its value"))
        elif (change := checked(StepModel, node, faults, sources=sources)) is not None:
            changes[str(key)] = change
    return changes


def changed(step: StepModel, change: StepModel | None) -> StepModel:
    """A step with a change: the change wins key by key, in `ready for` wait by wait."""
    if change is None:
        return step
    new: dict[str, Any] = {name: getattr(change, name) for name in change.model_fields_set}
    if step.ready_for is not None and change.ready_for is not None:
        waits = {wait.purpose: wait for wait in (*step.ready_for, *change.ready_for)}
        new["ready_for"] = tuple(waits.values())
    if {"keep_off", "leave_it"} & new.keys():
        new = {"keep_off": None, "leave_it": None, **new}
    return step.model_copy(update=new)
