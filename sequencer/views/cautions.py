"""Cautions of many recipes as few lines: a danger stands once, what it asks follows, said once each."""

from __future__ import annotations

from collections.abc import Iterable

from sequencer.terms.hazards import DANGERS

DANGER_WORDS = 3
"""A caution that begins with a danger names it in at most so many words, then a comma; else it is one sentence."""


def gathered(cautions: Iterable[str]) -> list[str]:
    """A line for each danger in the order met: "Silica: cut wet and outdoors; mix outdoors or with extraction"."""
    asked: dict[str, list[str]] = {}
    said: set[str] = set()
    for caution in cautions:
        danger, comma, rest = caution.partition(", ")
        words = danger.split()
        if not comma or len(words) > DANGER_WORDS or words[0] not in DANGERS:
            danger, rest = caution, ""
        known = asked.setdefault(danger, [])
        for clause in filter(None, rest.split("; ")):
            if clause not in said:
                said.add(clause)
                known.append(clause)
    return [f"{danger}: {'; '.join(clauses)}" if clauses else danger for danger, clauses in asked.items()]
