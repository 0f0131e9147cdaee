"""A line of the site book as JSON."""

from __future__ import annotations

from sequencer.terms.fact import Fact
from sequencer.views.as_json import Time


def fact_as_json(fact: Fact, time: Time) -> dict[str, object]:
    """A fact with its moments; a value with the limits it has to keep."""
    value = fact.value
    return {
        "number": fact.number,
        "kind": fact.kind,
        "about": fact.about or None,
        "words": fact.words,
        "happened": time(fact.happened),
        "written": time(fact.written),
        "value": None
        if value is None
        else {
            "what": value.what,
            "figure": value.figure,
            "unit": value.unit,
            "least": value.least,
            "most": value.most,
            "within": value.within,
        },
    }
