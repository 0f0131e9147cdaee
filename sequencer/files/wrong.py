"""A text that cannot be read: what is wrong with it and what to write instead, at its place if it has one."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import NamedTuple

from sequencer.files.tree import Text
from sequencer.terms.place import Fault, Place

MANY = 10
"""More words than this are not listed in a fault."""


class Said(NamedTuple):
    """One thing wrong: the text meant, what is wrong, what to write."""

    at: str
    what: str
    write: str


class Wrong(ValueError):
    """Raised by every parser of a text. `said`: all that is wrong, each at the place of its text, if it has one."""

    def __init__(self, at: str, what: str, write: str = "") -> None:
        super().__init__(f"{what}; {write}" if write else what)
        self.said: tuple[Said, ...] = (Said(at, what, write),)

    @classmethod
    def of(cls, wrongs: Iterable[Wrong]) -> Wrong:
        """Several as one. At least one is needed."""
        all_said = [said for wrong in wrongs for said in wrong.said]
        whole = cls(*all_said[0])
        whole.said = tuple(all_said)
        return whole

    def faults(self, place: Place) -> list[Fault]:
        """As faults; `place` is used for texts that carry none."""
        return [
            Fault(said.at.place if isinstance(said.at, Text) else place, said.what, said.write) for said in self.said
        ]


def listed(words: Iterable[str], joint: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    names = list(words)
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {joint} {names[-1]}"


def nearest(word: str, words: Iterable[str], more: str = "see the words in docs/files.md") -> str:
    """The advice for an unknown word: the nearest known one, else all of them; of many, `more`."""
    known = list(dict.fromkeys(words))
    lower = {name.lower(): name for name in reversed(known)}
    close = get_close_matches(word.lower(), list(lower), n=1, cutoff=0.6)
    if close:
        return f'write "{lower[close[0]]}"'
    if not known:
        return "there is none to name"
    if len(known) > MANY:
        return more
    return f"write {listed(known, 'or')}"
