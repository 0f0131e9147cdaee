"""What a plan warns of: rooms that their own layers make too damp, and starts that warmth takes away."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.network.model import WaitFor
from sequencer.terms.hearing import Hearing
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute, Span
from sequencer.waits.warmth import warmth_costs, warmth_words
from sequencer.writeup.damp_rooms import damp_rooms
from sequencer.writeup.timed import Timed, at


def warnings(timed: Timed) -> tuple[str, ...]:
    """Every warning as a sentence, in the order of the files."""
    found = [*damp_rooms(timed), *(words for step in timed.case.job.steps for words in _warmth(timed, step))]
    return tuple(dict.fromkeys(found))


def _warmth(timed: Timed, step: Step) -> Iterator[str]:
    """The start the steps before it leave a step, where warmth shuts the window after it and it goes in later."""
    heard = [h for h in timed.hearings if h.giver is step and h.wait is not None and h.wait.within_minutes is not None]
    if not heard:
        return
    work = timed.network.tasks[step.id].work
    start = work.next_start(_soonest(timed, step))
    if start is None or start >= timed.start(step.id):
        return
    end = at(work.ends, start)
    for hearing in heard:
        assert hearing.wait is not None
        costs = warmth_costs(timed.case.clock(step, hearing.wait), end, _hours(timed, hearing, end))
        if costs is not None:
            title = hearing.listener.title
            yield f"{step.title} could go in sooner, but not {title} after it: {warmth_words(costs)}"


def _soonest(timed: Timed, step: Step) -> Minute:
    """When all that a step follows is done and ready."""
    moments = [timed.network.start]
    for rule in timed.binding[step.id]:
        end = timed.end(rule.before)
        moments.append(at(rule.ready, end) if isinstance(rule, WaitFor) else end)
    return max(moments)


def _hours(timed: Timed, hearing: Hearing, end: Minute) -> list[Span]:
    openings = timed.case.hours_of(hearing.listener)
    spans = zip(openings.opens.tolist(), openings.closes.tolist(), strict=True)
    return [span for span in spans if span[1] > end]
