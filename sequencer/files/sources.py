"""The letter at the end of a text that says where its numbers come from: `2 h (c)`."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong, listed

_DECIMAL_COMMA = re.compile(r"([0-9]+),([0-9]+)")
_LETTER = re.compile(r"\((?P<letter>[^()]*)\)\s*$")


@dataclass(frozen=True)
class Sources:
    """The sources a file names, by letter. `here`: the source of a number without one, None if each must have one."""

    by_letter: dict[str, str] = field(default_factory=dict)
    here: str | None = None

    def split(self, text: str) -> tuple[str, str]:
        """A text without its letter, and the full words of its source. Raises Wrong."""
        if comma := _DECIMAL_COMMA.search(text):
            raise Wrong(cut(text, comma.start()), "a comma stands between digits", f'write "{comma[1]}.{comma[2]}"')
        found = _LETTER.search(text)
        if found is None:
            if self.here is not None:
                return text, self.here
            write = (
                f"end it with {self._letters()}"
                if self.by_letter
                else "name it under sources: and end the text with its letter"
            )
            raise Wrong(text, f'"{text}" names no source', write)
        letter = cut(text, found.start("letter"), found.end("letter"))
        rest = cut(text, 0, found.start())
        if letter in self.by_letter:
            return rest, self.by_letter[letter]
        if self.here is not None and letter:
            return rest, str(letter)
        raise Wrong(letter, f'"{letter}" is not among the sources', f"write {self._letters()}")

    def _letters(self) -> str:
        return listed((f"({letter})" for letter in self.by_letter), "or")
