"""How a file points at something: a step, a step that is ready for something, a state given when ready."""

from __future__ import annotations

import re
from dataclasses import dataclass

from sequencer.files.fields import place_of
from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.recipe import Closing, Given, Grade

_READY = re.compile(r"(?P<who>.+?)\s+ready\s+for\s+(?P<what>.+)")
_WHEN = re.compile(r"(?P<state>.+?)\s+when\s+ready\s+for\s+(?P<what>.+)")
_UNTIL_READY = re.compile(r"until\s+ready\s+for\s+(?P<what>.+)")
_UNTIL_DONE = re.compile(r"until\s+(?P<step>.+?)\s+is\s+done")


@dataclass(frozen=True)
class Ref:
    """A step or a use that is pointed at, and what it must be ready for (None: its end of work)."""

    who: str
    purpose: str | None
    place: Place


def parse_ref(text: str) -> Ref:
    """`coat 1`, `coat 2 ready for water`."""
    found = _READY.fullmatch(text)
    if found is None:
        return Ref(str(text), None, place_of(text))
    return Ref(found["who"], found["what"], place_of(text))


def parse_given(text: str) -> Given:
    """`wall tile set`, `wall tile set when ready for grout`."""
    found = _WHEN.fullmatch(text)
    if found is None:
        return Given(str(text), None, place_of(text))
    return Given(found["state"], found["what"], place_of(text))


def parse_closing(text: str, grade: Grade) -> Closing:
    """`until ready for foot`, `until drain is done`. Raises Wrong."""
    if found := _UNTIL_READY.fullmatch(text):
        return Closing(grade, str(cut(text, found.start("what"))), None, place_of(text))
    if found := _UNTIL_DONE.fullmatch(text):
        return Closing(grade, None, found["step"], place_of(text))
    raise Wrong(text, f'"{text}" does not say until when', 'write "until ready for foot" or "until drain is done"')
