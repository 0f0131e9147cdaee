"""The border: a tree of texts checked against a model; everything that does not fit becomes a Fault in our words."""

from __future__ import annotations

import re
from typing import Any, TypeVar, get_args, get_origin

from pydantic import BaseModel, ConfigDict, ValidationError

from sequencer.files.tree import Rows, Table, Text, Tree
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.place import Fault, Place


class Model(BaseModel):
    """A table of a file. Its keys are the field names with spaces; a key it does not know is a fault."""

    model_config = ConfigDict(
        defer_build=True,
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )

    @classmethod
    def keys(cls) -> list[str]:
        """The keys as a person writes them."""
        return [field.alias or name for name, field in cls.model_fields.items()]


M = TypeVar("M", bound=Model)


def checked(model: type[M], table: Table, faults: list[Fault], **context: Any) -> M | None:
    """The table as its model, or None after adding to `faults` all that is wrong. `context` goes to the parsers."""
    try:
        return model.model_validate(table, context=context)
    except ValidationError as error:
        for each in error.errors(include_url=False, include_input=False):
            faults.extend(_faults(each, model, table))
        return None


def _faults(error: Any, model: type[Model], table: Table) -> list[Fault]:
    loc: tuple[Any, ...] = error["loc"]
    wrong = error.get("ctx", {}).get("error")
    if isinstance(wrong, Wrong):
        return wrong.faults(_place(table, loc))
    if error["type"] == "extra_forbidden":
        return [_unknown(str(loc[-1]), _inner(model, loc[:-1]), _walk(table, loc[:-1]))]
    if error["type"] == "missing":
        value = " 1" if loc[-1] == "format" else ""
        return [Fault(_place(table, loc[:-1]), f'the key "{loc[-1]}" is missing', f"add {loc[-1]}:{value}")]
    if error["type"] in ("model_type", "dict_type", "model_attributes_type"):
        inner = _inner(model, loc)
        example = f"write keys such as {inner.keys()[0]}:" if inner is not None else "write a key and its value below"
        return [Fault(_place(table, loc), f'"{loc[-1]}" needs keys of its own', example)]
    return [Fault(_place(table, loc), f'"{loc[-1]}" cannot be read', "see docs/files.md")]


def _unknown(key: str, model: type[Model] | None, table: Tree | None) -> Fault:
    assert isinstance(table, Table)
    place = table.place_of(key)
    known = model.keys() if model is not None else []
    squeezed = re.fullmatch(r"([^:]+):(\S.*)", key)
    if squeezed and table[key] == "" and squeezed[1] in known:
        return Fault(place, "no space follows the colon", f'write "{squeezed[1]}: {squeezed[2]}"')
    advice = nearest(key, known)
    if table.flow and table[key] == "" and key != next(iter(table)) and not advice.startswith('write "'):
        return Fault(place, f'a comma in braces ends a text, so "{key}" stands alone', "quote the whole text before it")
    return Fault(place, f'the key "{key}" is not known here', advice)


def _inner(model: type[Model], loc: tuple[Any, ...]) -> type[Model] | None:
    """The model of the table at `loc`."""
    inner: Any = model
    for key in loc:
        if _is_model(inner):
            field = next((field for field in inner.model_fields.values() if field.alias == key), None)
            inner = _shape(field.annotation) if field is not None else None
        else:
            inner = _shape(get_args(inner)[-1]) if get_args(inner) else None
    return inner if _is_model(inner) else None


def _is_model(shape: Any) -> bool:
    return isinstance(shape, type) and issubclass(shape, Model)


def _shape(annotation: Any) -> Any:
    """A model or a dict of them, without the None and the validators around it."""
    for inner in get_args(annotation):
        if get_origin(annotation) is dict:
            return annotation
        if (found := _shape(inner)) is not None:
            return found
    return annotation if _is_model(annotation) else None


def _walk(tree: Tree, loc: tuple[Any, ...]) -> Tree | None:
    node: Tree | None = tree
    for key in loc:
        if isinstance(node, Table):
            node = node.get(str(key))
        elif isinstance(node, Rows) and isinstance(key, int) and key < len(node):
            node = node[key]
        else:
            return None
    return node


def _place(table: Table, loc: tuple[Any, ...]) -> Place:
    """The key that leads to `loc`, or as near to it as the file goes."""
    for length in range(len(loc), 0, -1):
        parent = _walk(table, loc[: length - 1])
        if isinstance(parent, Table) and str(loc[length - 1]) in parent:
            return parent.place_of(str(loc[length - 1]))
        if isinstance(parent, Rows):
            node = _walk(table, loc[:length])
            if isinstance(node, Text | Table | Rows):
                return node.place
    return table.place
