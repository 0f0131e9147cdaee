"""A recipe file, read from its text."""

from __future__ import annotations

from sequencer.files.border import checked
from sequencer.files.changed_steps import changed_steps
from sequencer.files.fields import parse_name, text_of
from sequencer.files.recipe_file import Changes, RecipeFile
from sequencer.files.recipe_model import RecipeModel, parse_step_name
from sequencer.files.sources import Sources
from sequencer.files.tree import Table, Text
from sequencer.files.wrong import Wrong
from sequencer.files.yaml_tree import read_tree
from sequencer.terms.place import Fault


def _sources(table: Table, faults: list[Fault]) -> dict[str, str]:
    """The sources by letter; they are read first, since every number names one."""
    node = table.get("sources")
    if node is None:
        return {}
    if not isinstance(node, Table):
        faults.append(Fault(table.place_of("sources"), "sources are letters with their meaning", 'write {c: "..."}'))
        return {}
    found: dict[str, str] = {}
    for letter in node.texts():
        try:
            found[str(letter)] = str(text_of(node[letter]))
        except Wrong as wrong:
            faults.extend(wrong.faults(letter.place))
    return found


def recipe_of(text: str, file: str, faults: list[Fault]) -> RecipeFile | None:
    """A recipe's text as written, or None after adding to `faults` why not."""
    table = read_tree(text, file, faults)
    if table is None:
        return None
    sources = _sources(table, faults)
    model = checked(RecipeModel, table, faults, sources=Sources(sources))
    if model is None:
        return None
    steps = table["steps"]
    assert isinstance(steps, Table)
    for key in steps.texts():
        try:
            parse_step_name(key)
        except Wrong as wrong:
            faults.extend(wrong.faults(key.place))
    if not steps:
        faults.append(Fault(table.place_of("steps"), "the recipe has no steps", "add a step with its hours"))
        return None
    places = {str(key): key.place for key in steps.texts()}
    node = table.get("ways")
    names = list(node.texts()) if isinstance(node, Table) else []
    ways = {str(name): _other_way(name, model, Sources(sources), faults) for name in names}
    return RecipeFile(
        model, table.place_of("recipe"), places, sources, ways, {str(name): name.place for name in names}
    )


def _other_way(name: Text, model: RecipeModel, sources: Sources, faults: list[Fault]) -> Changes:
    try:
        parse_name(name)
    except Wrong as wrong:
        faults.extend(wrong.faults(name.place))
    return changed_steps(model.ways[name].change, model.recipe, model.steps, sources, faults)
