"""Nothing starts before what it hangs on is decided."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.model import AllowedStarts, Rule, Why
from sequencer.network.rules.notice import not_before
from sequencer.terms.cause import Cause
from sequencer.terms.words import OWN_TRADE


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every step that waits for a decision."""
    for decision in case.job.decisions:
        have = "have" if decision.by == OWN_TRADE else "has"
        text = f"{decision.by} {have} not decided on {decision.name} before"
        why = Why("people", text, decision.place, None, Cause("decision", decision.name))
        for step in decision.for_steps:
            yield AllowedStarts(step, not_before(decision.stands), why)
