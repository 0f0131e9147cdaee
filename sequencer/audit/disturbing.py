"""No dust, shaking, draught, steam, load or water on a layer that does not bear it yet."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.site import Site, overlap
from sequencer.terms.job import Step
from sequencer.terms.minute import Span
from sequencer.terms.practice import MAKES


def broken(site: Site) -> Iterator[str]:
    """Steps that disturb a layer of their room."""
    for room in site.job.rooms:
        here = [step for step in site.in_room(room.name) if step.where is None]
        made = [(maker, *MAKES[kind]) for maker in here for kind in maker.makes]
        for layer in here:
            tender = {word: _tender(site, layer, word) for word in dict.fromkeys(word for _, word, _ in made)}
            for maker, word, stays in made:
                span = tender[word]
                if span is None or maker is layer or site.behind(layer, maker):
                    continue
                if overlap(span, (site.start(maker), site.end(maker) + stays)):
                    yield f"{maker.id} makes {word}, which {layer.id} does not bear yet"


def _tender(site: Site, layer: Step, word: str) -> Span | None:
    """From when until when a layer does not bear something; None if it always does."""
    if layer.wait_for(word) is not None:
        return site.start(layer), site.ready(layer, word)
    return site.shut(layer) if layer.wet_film and word == "dust" else None
