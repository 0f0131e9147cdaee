"""Somebody under people whom nothing needs and whose name is nearly that of somebody who is needed."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from sequencer.terms.job import Job
from sequencer.terms.place import Fault
from sequencer.terms.words import CLIENT, OWN_TRADE

ALIKE = 0.8
"""Two names are taken for one, mistyped, when this share of their letters agrees; common practice, no source."""


def remarks(job: Job) -> Iterator[Fault]:
    """People of the job file who do no step and decide nothing, where a name nearly theirs does."""
    needed = {step.trade for step in job.steps} | {decision.by for decision in job.decisions}
    needed |= {job.hand_over_trade, OWN_TRADE, CLIENT}
    for name, trade in job.trades.items():
        near = get_close_matches(name, sorted(needed), n=1, cutoff=ALIKE)
        if name not in needed and near and trade.place.file == job.place.file:
            yield Fault(trade.place, f"no step is done by {name}", f"is {near[0]} meant?")
