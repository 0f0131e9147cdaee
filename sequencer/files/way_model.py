"""A recipe's other ways of being done, as written: title, what it costs more or less, changed steps."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import PlainValidator

from sequencer.files.border import Model
from sequencer.files.fields import place_of, said, table_of, text_of, told
from sequencer.files.quantities import NUMBER, parse_number
from sequencer.files.sources import Sources
from sequencer.files.tree import Table, cut
from sequencer.files.wrong import Wrong
from sequencer.terms.recipe import Costs

_COSTS = re.compile(rf"(?P<number>{NUMBER})\s+(?P<way>more|less)")


def parse_costs(text: str, sources: Sources) -> Costs:
    """`60 more (c)`, `15 less (c)`, in the money of the job. Raises Wrong."""
    words, source = sources.split(text)
    found = _COSTS.fullmatch(words.strip())
    if found is None:
        raise Wrong(text, f'"{words}" does not say what it costs', "write a number and more or less: 60 more")
    amount = parse_number(cut(words, found.start("number"), found.end("number")))
    return Costs(amount if found["way"] == "more" else -amount, source, place_of(text))


def _costs(node: Any, context: dict[str, Any]) -> Costs:
    return parse_costs(text_of(node), context["sources"])


class WayModel(Model):
    """Another way of doing a recipe as written."""

    title: Annotated[str, said(str)]
    costs: Annotated[Costs | None, told(_costs)] = None
    change: Annotated[Table, PlainValidator(table_of)]
