"""What a model's fields are made of: parsers that take a node of the tree and give a value or raise Wrong."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from pydantic import BeforeValidator, PlainValidator, ValidationInfo

from sequencer.files.tree import Rows, Table, Text, pieces
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.place import Place
from sequencer.terms.recipe import Named

T = TypeVar("T")
NAME = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")


def text_of(node: object) -> str:
    """A node that must be a text, without blanks around it. Raises Wrong."""
    if isinstance(node, Table):
        at = Text("", node.place)
        raise Wrong(at, "a text belongs here, but a colon and a space make it a key", "quote the whole text")
    if isinstance(node, Rows):
        raise Wrong(Text("", node.place), "one text belongs here, not a list", "write it without brackets")
    if not isinstance(node, str):
        raise TypeError(node)
    text = node.cut(0) if isinstance(node, Text) else node.strip()
    if not text:
        raise Wrong(text, "nothing stands here", "write a value, or delete the key")
    return text


def texts_of(node: object) -> list[str]:
    """A node that must be a text or a list of texts."""
    if isinstance(node, Rows):
        return gathered(text_of, node)
    return [text_of(node)]


def table_of(node: object) -> Table:
    """A node that must be a table of keys."""
    if not isinstance(node, Table):
        at = node if isinstance(node, Text) else Text("", node.place) if isinstance(node, Rows) else ""
        raise Wrong(at, "keys and values belong here", "write a key, a colon and its value")
    return node


def gathered(parse: Callable[[Any], T], nodes: Iterable[object]) -> list[T]:
    """Every node parsed; all that is wrong is raised as one."""
    values: list[T] = []
    wrongs: list[Wrong] = []
    for node in nodes:
        try:
            values.append(parse(node))
        except Wrong as wrong:
            wrongs.append(wrong)
    if wrongs:
        raise Wrong.of(wrongs)
    return values


def said(parse: Callable[[str], object]) -> PlainValidator:
    """A field that is one text."""
    return PlainValidator(lambda node: _placeless(parse(text_of(node))))


def said_each(parse: Callable[[str], object]) -> PlainValidator:
    """A field that is a text or a list of texts: a tuple of values."""
    return PlainValidator(lambda node: tuple(map(_placeless, gathered(parse, texts_of(node)))))


def _placeless(value: object) -> object:
    return str(value) if isinstance(value, Text) else value


def told(parse: Callable[[Any, dict[str, Any]], object]) -> PlainValidator:
    """A field whose parser takes the node as it is, and the context of the reading."""

    def run(node: object, info: ValidationInfo) -> object:
        return parse(node, info.context or {})

    return PlainValidator(run)


def _table_if_empty(node: object) -> object:
    return Table(node.place) if isinstance(node, Text) and node == "" else node


may_be_empty = BeforeValidator(_table_if_empty)
"""A table of which nothing needs to be said: `strip-out:`."""


def one_of(words: Iterable[str], what: str) -> Callable[[str], str]:
    """A parser of one word of a list."""
    known = tuple(words)

    def parse(text: str) -> str:
        if text in known:
            return text
        several = [str(piece) for piece in pieces(text)]
        if len(several) > 1 and all(piece in known for piece in several):
            raise Wrong(text, f'"{text}" is no {what}, but a list of such', f"write [{', '.join(several)}]")
        raise Wrong(text, f'"{text}" is no {what}', nearest(text, known))

    return parse


def parse_name(text: str) -> str:
    """A lasting name: letters, digits, hyphens."""
    if not NAME.fullmatch(text):
        proposal = "-".join(re.findall(r"[A-Za-z0-9]+", text)) or "a-name"
        raise Wrong(text, f'"{text}" is no lasting name', f'use letters, digits and hyphens: "{proposal}"')
    return text


def place_of(text: str) -> Place:
    """Where a text of a file stands."""
    assert isinstance(text, Text)
    return text.place


def parse_named(text: str) -> Named:
    """A word with its place."""
    return Named(str(text), place_of(text))


def parse_yes(text: str) -> bool:
    """`yes` or `no`."""
    if text not in ("yes", "no"):
        raise Wrong(text, f'"{text}" is neither yes nor no', "write yes or no")
    return text == "yes"


def parse_format(text: str) -> str:
    """`1`, the only format there is."""
    if text != "1":
        raise Wrong(text, f'this program reads format 1, not "{text}"', "write format: 1")
    return text
