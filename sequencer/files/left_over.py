"""What is left of a file when its faulty values are taken out, so that everything else is still checked."""

from __future__ import annotations

from datetime import date
from typing import Any, TypeVar

from pydantic import ValidationError

from sequencer.files.border import Model
from sequencer.files.tree import Rows, Table, Text, Tree

M = TypeVar("M", bound=Model)
Path = tuple[Any, ...]

NEEDED = ("format", "job", "place", "start")
"""Keys without which nothing else can be checked."""

DECIDING = ("days", "hours", "break", "away", "size", "areas", "parts")
"""Keys whose loss would make other things look wrong that are not."""


STAND_INS: dict[Path, str] = {("job",): "a-job", ("place", "zone"): "UTC"}
"""What stands for a faulty value that no other check goes by."""
LEAD, A_LEAD = ("orders", None, "lead"), "1 working days"
"""The lead of any order, and what stands for it."""


def left_over(model: type[M], table: Table, start: date | None = None) -> M | None:
    """The file without what is faulty in it; None if what is faulty is needed to check the rest.

    `start`: the start day, or the day that a faulty text of it most likely means.
    """
    left = _copy(table)
    assert isinstance(left, Table)
    stand_ins = dict(STAND_INS)
    if start is not None:
        stand_ins["start",] = start.isoformat()
    context = {"start": start}
    while True:
        try:
            return model.model_validate(left, context=context)
        except ValidationError as error:
            wrong = {each["loc"] for each in error.errors(include_url=False, include_input=False)}
            put = {loc for loc in wrong if _put(left, loc, stand_ins)}
            spare = {_spare(loc) for loc in wrong - put}
            taken = [*put, *(_take_out(left, path) for path in spare if path is not None)]
            if None in spare or not any(taken):
                return None


def _spare(loc: Path) -> Path | None:
    """The smallest part of the file around a faulty value that the rest can do without; None if there is none."""
    if loc[0] in NEEDED or any(key in DECIDING for key in loc):
        return None
    if loc[0] == "rooms":
        if len(loc) >= 5 and loc[2] == "recipes":
            return loc[:5]
        return loc[:3] if len(loc) >= 3 and loc[2] != "recipes" else None
    if loc[0] == "people":
        return loc[:3] if len(loc) >= 3 else None
    return loc[:3] if loc[0] in ("orders", "decisions") and len(loc) >= 2 else loc[:1]


def _put(left: Table, loc: Path, stand_ins: dict[Path, str]) -> bool:
    """Puts a stand-in in the place of a faulty value; False if there is none for it, or it stands there already."""
    text = A_LEAD if len(loc) == len(LEAD) and (loc[0], None, loc[2]) == LEAD else stand_ins.get(loc)
    node: Tree | None = left
    for key in loc[:-1]:
        node = node.get(str(key)) if isinstance(node, Table) else None
    if text is None or not isinstance(node, Table) or loc[-1] not in node or node[loc[-1]] == text:
        return False
    node[loc[-1]] = Text(text, node.place_of(loc[-1]))
    return True


def _take_out(left: Table, path: Path) -> bool:
    """Takes a part out, or what lacks it; False if neither is there."""
    node: Tree | None = left
    for key in path[:-1]:
        node = node.get(str(key)) if isinstance(node, Table) else None
    if isinstance(node, Table) and node.pop(str(path[-1]), None) is not None:
        return True
    return len(path) > 1 and _take_out(left, path[:-1])


def _copy(node: Tree) -> Tree:
    if isinstance(node, Table):
        table = Table(node.place, node.flow)
        table.update({key: _copy(node[key]) for key in node.texts()})
        return table
    if isinstance(node, Rows):
        rows = Rows(node.place)
        rows.extend(_copy(each) for each in node)
        return rows
    return node
