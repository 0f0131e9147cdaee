"""No dust, shaking, draught, steam, load or water on a layer that does not bear it yet."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import permutations

from sequencer.audit.site import Site, overlap
from sequencer.terms.practice import MAKES


def broken(site: Site) -> Iterator[str]:
    """Steps that disturb a layer of their room."""
    for layer, maker in permutations(site.job.steps, 2):
        if site.behind(layer, maker) or layer.room != maker.room or layer.where is not None or maker.where is not None:
            continue
        for made in maker.makes:
            word, stays = MAKES[made]
            tender = layer.wait_for(word) is not None
            if not tender and not (layer.wet_film and word == "dust"):
                continue
            until = site.ready(layer, word) if tender else site.opens(layer)
            if overlap((site.start(layer), until), (site.start(maker), site.end(maker) + stays)):
                yield f"{maker.id} makes {word}, which {layer.id} does not bear yet"
