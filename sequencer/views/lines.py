"""Lines made of pieces: text, the name of its look, the cell it belongs to. Paper, screen and pipe share them."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Piece:
    """A run of text. `look`: a key of the table of marks, "work", "paused", "head" or "" for plain.

    `cell`: the (row, column) of the diary it shows, None outside the cells.
    """

    text: str
    look: str = ""
    cell: tuple[int, int] | None = None


Line = tuple[Piece, ...]


def plain_line(text: str, look: str = "") -> Line:
    """A line of one piece."""
    return (Piece(text, look),)


def text_of(line: Line) -> str:
    """The line as plain text."""
    return "".join(piece.text for piece in line).rstrip()


def page(lines: Iterable[Line]) -> str:
    """Lines as plain text, each ended."""
    return "".join(text_of(line) + "\n" for line in lines)


def cut(text: str, width: int) -> str:
    """Text of at most `width` characters; what was cut leaves a `+`."""
    return text if len(text) <= width else text[: max(0, width - 1)].rstrip() + "+"


def sentence(text: str) -> str:
    """The text with a capital in front."""
    return text[:1].upper() + text[1:]


def wrapped(text: str, width: int, first: str = "", rest: str | None = None) -> list[str]:
    """A sentence over lines of at most `width`; words longer than a line are broken."""
    return textwrap.wrap(
        text, width, initial_indent=first, subsequent_indent=first if rest is None else rest, break_on_hyphens=False
    ) or [first.rstrip()]


@dataclass(frozen=True)
class Section:
    """A heading and the sentences under it."""

    name: str
    texts: tuple[str, ...]


def laid_out(sections: Iterable[Section], width: int) -> list[str]:
    """Sections as text: the heading in capitals, sentences one blank in, an empty line between sections."""
    lines: list[str] = []
    for section in sections:
        lines += ["", section.name.upper()] if lines else [section.name.upper()]
        for text in section.texts:
            lines += wrapped(text, width, " ", "   ")
    return lines
