"""The surfaces that layers keep closed after the work, and what they do meanwhile."""

from __future__ import annotations

from sequencer.plan import Closed
from sequencer.terms.job import Step
from sequencer.terms.words import how_of
from sequencer.writeup.timed import Timed


def closed_surfaces(timed: Timed) -> tuple[Closed, ...]:
    """Every closing with a surface and a length, by start, then surface."""
    found = []
    for step in timed.case.job.steps:
        end, opens = timed.end(step.id), timed.opens(step)
        if step.closing is None or opens <= end:
            continue
        why = _why(timed, step)
        for surface in step.surfaces:
            found.append(Closed(step.room, str(surface), step.closing.grade, end, opens, why, step.id, _how(step)))
    return tuple(sorted(found, key=lambda closed: (closed.start, closed.room, closed.surface, closed.step)))


def _why(timed: Timed, step: Step) -> str:
    closing = step.closing
    if closing is None:
        return ""
    if closing.until_done is not None:
        return f"until {closing.until_done} is done"
    wait = step.wait_for(closing.purpose or "")
    return timed.working(step, wait) if wait else ""


def _how(step: Step) -> str:
    if "water" in step.makes:
        return "water on"
    wait = step.wait_for(step.closing.purpose or "") if step.closing else None
    return "sets" if wait is None else how_of(wait.law)
