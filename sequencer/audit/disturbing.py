"""No dust, shaking, draught, steam, load or water on a layer that does not bear it yet."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from sequencer.audit.site import Site, overlap
from sequencer.terms.job import Step
from sequencer.terms.practice import MAKES


def broken(site: Site) -> Iterator[str]:
    """Steps that disturb a layer of their room."""
    for room in site.job.rooms:
        for layer, maker in permutations(site.in_room(room.name), 2):
            if layer.where is None and maker.where is None and not site.behind(layer, maker):
                yield from _disturbed(site, layer, maker)


def _disturbed(site: Site, layer: Step, maker: Step) -> Iterator[str]:
    for made in maker.makes:
        word, stays = MAKES[made]
        tender = layer.wait_for(word) is not None
        if not tender and not (layer.wet_film and word == "dust"):
            continue
        until = site.ready(layer, word) if tender else site.opens(layer)
        if overlap((site.start(layer), until), (site.start(maker), site.end(maker) + stays)):
            yield f"{maker.id} makes {word}, which {layer.id} does not bear yet"
