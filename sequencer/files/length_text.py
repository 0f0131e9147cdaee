"""Lengths of time of a step that are no wait: how often to look in, how long fumes stay."""

from __future__ import annotations

from typing import Any

from sequencer.files.fields import place_of, text_of
from sequencer.files.quantities import parse_duration
from sequencer.files.tree import cut
from sequencer.files.wrong import Wrong
from sequencer.terms.recipe import Length


def look_in_of(node: Any, context: dict[str, Any]) -> Length:
    """`every 8 h (c)`."""
    return _length(text_of(node), context, "every", "every 8 h")


def fumes_of(node: Any, context: dict[str, Any]) -> Length:
    """`for 12 h (c)`."""
    return _length(text_of(node), context, "for", "for 12 h")


def _length(text: str, context: dict[str, Any], word: str, example: str) -> Length:
    words, source = context["sources"].split(text)
    if not words.startswith(f"{word} "):
        raise Wrong(words, f'"{words}" does not say how long', f"write {example}")
    minutes = parse_duration(cut(words, len(word)))
    if minutes < 1:
        raise Wrong(words, "this takes no time", f"write {example}")
    return Length(minutes, source, place_of(text))
