"""One step a surface: it belongs to a step from its start to its end, and stays closed until the wait named."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.case import Case
from sequencer.network.cliques import cliques
from sequencer.network.closing import closing_claim, inside
from sequencer.network.model import OneAtATime, Rule, Why


def rules(case: Case) -> Iterator[Rule]:
    """Groups of claims for each room; open framing is shared, and what a closing waits for goes on inside it."""
    for steps in case.by_room.values():
        here = {step.id: step for step in steps if step.surfaces and step.where is None}
        within = {step.id: inside(case, step) for step in here.values()}

        def conflict(a: str, b: str) -> bool:
            one, other = here[a], here[b]  # noqa: B023
            if one.open_framing and other.open_framing:
                return False
            if b in within[a] or a in within[b]:  # noqa: B023
                return False
            return any(x.touches(y) for x in one.surfaces for y in other.surfaces)

        for group in cliques(list(here), conflict):
            names = sorted({str(surface) for id in group for surface in here[id].surfaces})
            why = Why("material", f"one step at a time on {', '.join(names)}")
            yield OneAtATime(tuple(closing_claim(case, here[id]) for id in group), why)
