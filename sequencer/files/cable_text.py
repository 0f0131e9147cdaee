"""A heating cable in words: how far it keeps off the walls, and the resistance on its label."""

from __future__ import annotations

import re

from sequencer.files.quantities import NUMBER, parse_length, parse_number
from sequencer.files.sources import Sources
from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.recipe import Cable

_OFF = re.compile(r"(?P<length>.+?)\s+off\s+the\s+walls")
_OHMS = re.compile(rf"(?P<ohms>{NUMBER})\s+within\s+(?P<share>{NUMBER})\s*%")


def parse_cable(text: str, place: Place, sources: Sources) -> Cable:
    """`100 mm off the walls (c)`. Raises Wrong."""
    text, source = sources.split(text)
    found = _OFF.fullmatch(text.strip())
    if found is None:
        raise Wrong(text, f'"{text}" does not say how far a cable keeps off', "write 100 mm off the walls")
    return Cable(parse_length(cut(text, found.start("length"), found.end("length"))), source, place)


def parse_ohms(text: str) -> tuple[float, float]:
    """`52 within 10 %`: the least and the most that may be read [ohm]. Raises Wrong."""
    found = _OHMS.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no resistance with its range', "write 52 within 10 %")
    ohms, share = parse_number(found["ohms"]), parse_number(found["share"]) / 100
    if not ohms or share >= 1:
        raise Wrong(text, f'"{text}" leaves nothing to read against', "write what stands on the label: 52 within 10 %")
    return ohms * (1 - share), ohms * (1 + share)
