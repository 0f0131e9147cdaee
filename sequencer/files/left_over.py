"""What is left of a job file when its faulty values are taken out, so that everything else is still checked."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from sequencer.files.job_model import JobModel
from sequencer.files.tree import Rows, Table, Tree

Path = tuple[Any, ...]

NEEDED = ("format", "job", "place", "start")
"""Keys without which nothing else can be checked."""

DECIDING = ("days", "hours", "break", "away", "size", "areas", "parts")
"""Keys whose loss would make other things look wrong that are not."""


def left_over(table: Table, **context: Any) -> JobModel | None:
    """The job without what is faulty in it; None if what is faulty is needed to check the rest."""
    left = _copy(table)
    assert isinstance(left, Table)
    while True:
        try:
            return JobModel.model_validate(left, context=context)
        except ValidationError as error:
            spare = {_spare(each["loc"]) for each in error.errors(include_url=False, include_input=False)}
            taken = [_take_out(left, path) for path in spare if path is not None]
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
    return loc[:2] if loc[0] in ("orders", "decisions") and len(loc) >= 2 else loc[:1]


def _take_out(left: Table, path: Path) -> bool:
    """Takes a part out; False if it is not there."""
    node: Tree | None = left
    for key in path[:-1]:
        node = node.get(str(key)) if isinstance(node, Table) else None
    if not isinstance(node, Table):
        return False
    return node.pop(str(path[-1]), None) is not None


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
