"""What words name exactly, and what comes near to words that name nothing."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from difflib import SequenceMatcher

NEAR, AS_NEAR, IN_TITLE, MOST = 0.72, 0.12, 0.95, 3
"""How alike words must be, how much less alike than the best the others may be, what a word of a title counts beside
one of a name, and how many are named: chosen, no source."""

FEW = 10
"""So many names are all named where none is near."""


def spoken(text: str) -> str:
    """A name as it is said: `grout/fill floor` as `grout fill floor`."""
    return re.sub("[-/]", " ", text).casefold()


def called(ids: Iterable[str], word: str) -> list[str]:
    """Of the ids of steps those a word names in full: id, recipe with name; else those whose own name it is."""
    said, known = spoken(word), list(ids)
    whole = [id for id in known if said in (spoken(id), spoken(id.partition("/")[2]))]
    return whole or [id for id in known if said == spoken(id.rpartition("/")[2])]


def write_one_of(word: str, names: Mapping[str, str], listing: str = "plan names them all") -> str:
    """What to write instead of a word: of names, each with what is said of it, the nearest; none near: all of few."""
    near = nearest(word, names) or (list(names) if len(names) <= FEW else [])
    if not near:
        return listing
    return f"write {'one of: ' if len(near) > 1 else ''}{', '.join(near)}"


def nearest(word: str, names: Mapping[str, str]) -> list[str]:
    """The names nearest to a word that names none, the nearest first; none if none is near."""
    parts = spoken(word).split()
    if not parts:
        return []
    alike = {name: _alike(parts, spoken(name).split(), spoken(said).split()) for name, said in names.items()}
    best = max(alike.values(), default=0.0)
    near = [name for name, how in alike.items() if how >= max(NEAR, best - AS_NEAR)]
    return sorted(near, key=lambda name: -alike[name])[:MOST]


def _alike(parts: list[str], own: list[str], title: list[str]) -> float:
    """How alike words are to the likest of a name and its title, on average [0..1]."""
    return sum(max(_likest(part, own), IN_TITLE * _likest(part, title)) for part in parts) / len(parts)


def _likest(part: str, words: list[str]) -> float:
    return max((SequenceMatcher(None, part, word).ratio() for word in words), default=0.0)
