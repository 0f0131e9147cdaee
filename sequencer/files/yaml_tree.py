"""YAML read at C speed into texts, tables and lists that know their place. Every scalar stays text."""

from __future__ import annotations

import re
from typing import Any

import yaml

from sequencer.files.tree import Rows, Table, Text, Tree
from sequencer.files.yaml_faults import diagnose, no_space, tabs
from sequencer.terms.place import Fault, Place

LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""The reader in C where the library has it, else the one in Python."""

DEEPEST = 12
"""No file of the grammar nests deeper."""

_LOST = re.compile(r" +(#)[^\s#]")
_PLAIN = (None, "")


class _Stop(Exception):
    """The file cannot be read on: the fault is told."""


class _Builder:
    def __init__(self, text: str, file: str, faults: list[Fault]) -> None:
        self.text = text
        self.sharp = "#" in text
        self.file = file
        self.faults = faults
        self.open: list[Table | Rows] = []
        self.keys: list[Text | None] = []
        self.root: Tree | None = None
        self.whole = True

    def fault(self, event: Any, what: str, write: str) -> None:
        self.faults.append(Fault(self.place(event), what, write))

    def place(self, event: Any) -> Place:
        mark = event.start_mark
        return Place(self.file, mark.line + 1, mark.column + 1)

    def take(self, event: Any) -> None:
        """One event of the library's reader."""
        kind = type(event)
        if kind is yaml.ScalarEvent:
            self.put(self.scalar(event), event)
        elif kind is yaml.MappingStartEvent:
            self.begin(Table(self.place(event), bool(event.flow_style)), event)
        elif kind is yaml.SequenceStartEvent:
            self.begin(Rows(self.place(event)), event)
        elif kind in (yaml.MappingEndEvent, yaml.SequenceEndEvent):
            self.open.pop()
            self.keys.pop()
        elif kind is yaml.AliasEvent:
            what = f'"*{event.anchor}" points to another part of the file'
            self.fault(event, what, "write the value out, or quote it")
            self.whole = False
            self.put(Text("", self.place(event), plain=False), event)
        elif kind is yaml.DocumentStartEvent:
            if self.root is not None:
                self.fault(event, "a second document begins here", "keep one document in a file")
                raise _Stop
            if event.version or event.tags:
                self.fault(event, "a file has no % line", "delete it")

    def scalar(self, event: Any) -> Text:
        self.plain_only(event)
        plain = event.style in _PLAIN
        start, end = event.start_mark, event.end_mark
        shift = 0 if plain else 1
        in_step = start.line == end.line and end.column - start.column == len(event.value) + 2 * shift
        if plain and self.sharp and (lost := _LOST.match(self.text, end.index)):
            place = Place(self.file, end.line + 1, end.column + 1 + lost.start(1) - end.index)
            self.faults.append(
                Fault(place, "what follows # is lost as a remark", "quote the text, or put a space after #")
            )
        value = event.value if in_step else " ".join(event.value.split())
        return Text(value, self.place(event), plain, shift if in_step else None)

    def plain_only(self, event: Any) -> None:
        if event.tag is not None:
            self.fault(event, "a text cannot begin with ! unless it is quoted", "leave it out, or quote the text")
        if event.anchor is not None:
            self.fault(event, "a text cannot begin with & unless it is quoted", "leave it out, or quote the text")

    def begin(self, node: Table | Rows, event: Any) -> None:
        self.plain_only(event)
        if len(self.open) >= DEEPEST:
            self.fault(event, "the file nests too deep", "write it in fewer levels")
            raise _Stop
        self.put(node, event)
        self.open.append(node)
        self.keys.append(None)

    def put(self, node: Tree, event: Any) -> None:
        if not self.open:
            self.root = node
            return
        parent = self.open[-1]
        if isinstance(parent, Rows):
            parent.append(node)
            return
        key = self.keys[-1]
        if key is not None:
            self.keys[-1] = None
            if key not in parent:
                parent[key] = node
            return
        if not isinstance(node, Text):
            self.fault(event, "a key must be a plain text", "write the key without brackets")
            self.whole = False
            node = Text("", self.place(event), plain=False)
        elif node in parent:
            line = parent.place_of(node).line
            self.fault(event, f'"{node}" stands here a second time (first in line {line})', "keep one of the two")
        self.keys[-1] = node


def read_tree(text: str, file: str, faults: list[Fault]) -> Table | None:
    """The table a file holds, or None after adding to `faults` why not. Faults that leave it readable are added too."""
    found = tabs(text, file)
    faults.extend(found)
    builder = _Builder(text, file, faults)
    try:
        for event in yaml.parse(text, Loader=LOADER):
            builder.take(event)
    except _Stop:
        return None
    except yaml.MarkedYAMLError as error:
        if not found:
            mark = error.problem_mark or error.context_mark
            faults.append(diagnose(text, file, mark.line if mark else 0, mark.column if mark else 0))
        return None
    except yaml.YAMLError:
        faults.append(diagnose(text, file, 0, 0))
        return None
    if not builder.whole:
        return None
    if not isinstance(builder.root, Table):
        squeezed = (no_space(line, file, number) for number, line in enumerate(text.split("\n"), 1))
        no_keys = Fault(Place(file), "the file holds no keys", "start it with: format: 1")
        faults.append(next((fault for fault in squeezed if fault), no_keys))
        return None
    return builder.root
