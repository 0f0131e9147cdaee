"""How many nights the work between two steps takes at least, one step after the other in a room that takes one."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable

from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Span


def nights_needed(job: Job, between: Iterable[Step]) -> int:
    """The fewest nights of the house over which hands-on work of some steps can be done; waits are not counted."""
    steps = [step for step in between if _takes_the_room(job, step)]
    work = sum(step.minutes for step in steps)
    days = [day for name in {step.trade for step in steps} for day in job.trades[name].days]
    open_ = _joined(span for day in days for span in day.spans)
    evenings = [start for start, _ in job.house.nights]
    fewest, last, within = len(evenings), -1, 0
    for first, (opens, closes) in enumerate(open_):
        while within < work and last + 1 < len(open_):
            last += 1
            within += open_[last][1] - open_[last][0]
        if within < work:
            break
        if last >= first:
            fewest = min(fewest, bisect_right(evenings, open_[last][0]) - bisect_right(evenings, closes))
        within -= closes - opens
    return max(0, fewest) if work else 0


def _takes_the_room(job: Job, step: Step) -> bool:
    """True if no other such step is done in its room meanwhile. What a closing lets in may be."""
    let_in = any(
        other.use == step.use and other.closing is not None and other.closing.until_done is not None
        for other in job.steps_in(step.room)
    )
    at_work = step.kind == "work" and step.where is None and step.stands != "elsewhere"
    return at_work and not let_in and job.trades[step.trade].hour_known and job.room(step.room).at_once == 1


def _joined(spans: Iterable[Span]) -> list[Span]:
    """Spans in order, those that touch or overlap as one."""
    found: list[Span] = []
    for start, end in sorted(spans):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return found
