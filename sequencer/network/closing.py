"""How long a step keeps its surfaces closed, and who may work inside that time."""

from __future__ import annotations

from sequencer.network.case import Case
from sequencer.network.model import Claim
from sequencer.terms.hearing import same_use, sibling
from sequencer.terms.job import Step


def closing_claim(case: Case, step: Step) -> Claim:
    """The claim of a step on its surfaces, from its start until they open again."""
    closing = step.closing
    if closing is None:
        return Claim(step.id)
    if closing.until_done is not None:
        return Claim(step.id, last=sibling(step, closing.until_done))
    wait = step.wait_for(closing.purpose or "")
    return Claim(step.id, case.by_clock(step, wait)) if wait else Claim(step.id)


def inside(case: Case, step: Step) -> set[str]:
    """Ids of steps a closing lets in: those a wait of the step names, and those up to the step that ends it."""
    if step.closing is None:
        return set()
    family = [other for other in case.job.steps_in(step.room) if same_use(step, other)]
    named = {other.id for other in family if step.wait_for(other.name) is not None}
    if step.closing.until_done is None:
        return named
    last = sibling(step, step.closing.until_done)
    before = _reach({o.id: {link.id for link in o.links} for o in family}, last)
    return named | {other.id for other in family if other.id in before and step.id in _reach_from(family, other.id)}


def _reach(links: dict[str, set[str]], start: str) -> set[str]:
    found, todo = {start}, [start]
    while todo:
        for id in links.get(todo.pop(), ()):
            if id in links and id not in found:
                found.add(id)
                todo.append(id)
    return found


def _reach_from(family: list[Step], start: str) -> set[str]:
    return _reach({o.id: {link.id for link in o.links} for o in family}, start) - {start}
