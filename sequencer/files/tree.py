"""What a file holds before anybody gives it a meaning: texts, tables and lists that know their place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from sequencer.terms.place import Place


class Text(str):
    """A text of a file. `plain`: written without quotes. `shift`: columns between place and first letter, None if they
    do not run in step (several lines, escapes). `at`: the place of what it was cut from; `on`: columns from there."""

    __slots__ = ("at", "on", "plain", "shift")

    at: Place
    on: int
    plain: bool
    shift: int | None

    def __new__(cls, value: str, at: Place, plain: bool = True, shift: int | None = 0, on: int = 0) -> Text:
        text = super().__new__(cls, value)
        text.at = at
        text.on = on
        text.plain = plain
        text.shift = shift
        return text

    @property
    def place(self) -> Place:
        """Where it stands; most texts are never asked."""
        return Place(self.at.file, self.at.line, self.at.column + self.on) if self.on else self.at

    def cut(self, start: int, stop: int | None = None) -> Text:
        """The letters from `start` to `stop`, at their own place, without blanks around them."""
        part = str.__getitem__(self, slice(start, stop))
        if self.shift is None:
            return Text(part.strip(), self.at, self.plain, None, self.on)
        blank = len(part) - len(part.lstrip())
        return Text(part.strip(), self.at, self.plain, 0, self.on + self.shift + start + blank)


class Table(dict[str, "Tree"]):
    """Keys and values; every key is a Text. `flow`: written in braces."""

    def __init__(self, place: Place, flow: bool = False) -> None:
        super().__init__()
        self.place = place
        self.flow = flow

    def texts(self) -> Iterator[Text]:
        """The keys, with their places."""
        for key in self:
            yield key if isinstance(key, Text) else Text(key, self.place, shift=None)

    def place_of(self, key: str) -> Place:
        """Where a key stands; the table's own place if it is not there."""
        return next((text.place for text in self.texts() if text == key), self.place)


class Rows(list["Tree"]):
    """A list of values."""

    def __init__(self, place: Place) -> None:
        super().__init__()
        self.place = place


Tree: TypeAlias = Text | Table | Rows


def cut(text: str, start: int, stop: int | None = None) -> str:
    """A part of a text without blanks around it, at its own place if the text has one."""
    return text.cut(start, stop) if isinstance(text, Text) else text[start:stop].strip()


def pieces(text: str, mark: str = ",") -> list[str]:
    """The parts of a text between marks, without blanks around them, each at its own place."""
    found: list[str] = []
    start = 0
    while (stop := text.find(mark, start)) >= 0:
        found.append(cut(text, start, stop))
        start = stop + len(mark)
    return [*found, cut(text, start)]
