"""Starts that warmth takes away: a layer would be ready, and too late again, while nobody works."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.model import Minutes
from sequencer.terms.hearing import Hearing
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute
from sequencer.waits.warmth import WarmthCosts, shut, warmth_costs, warmth_words
from sequencer.writeup.holding import A_QUARTER, in_the_way
from sequencer.writeup.timed import Timed


def lost_to_warmth(timed: Timed, step: Step) -> Iterator[tuple[tuple[str, ...], str]]:
    """What a step's layer loses to warmth: of all starts that the steps before it leave, up to the planned one."""
    for hearing in timed.given[step.id]:
        if hearing.wait is not None and hearing.wait.within_minutes is not None:
            costs = _lost(timed, step, hearing)
            if costs is not None:
                listener = hearing.listener
                words = f"{step.title} could go in sooner, but not {listener.title} after it: {warmth_words(costs)}"
                yield (step.id, listener.id), words


def _lost(timed: Timed, step: Step, hearing: Hearing) -> WarmthCosts | None:
    assert hearing.wait is not None
    clock, openings = timed.case.clock(step, hearing.wait), timed.case.hours_of(hearing.listener)
    spans = list(zip(openings.opens.tolist(), openings.closes.tolist(), strict=True))
    starts, work = _starts(timed, step), timed.network.tasks[step.id].work
    starts = starts[shut(clock, work.ends(starts), spans)]
    free = [start for start in starts.tolist() if in_the_way(timed, step.id, start) is None]
    return warmth_costs(clock, work.ends(np.array(free, np.int64)), spans) if free else None


def _starts(timed: Timed, step: Step) -> Minutes:
    """Every quarter of an hour at which a step could start by its hours, from when it is let go to its start."""
    starts = np.arange(_soonest(timed, step), timed.start(step.id), A_QUARTER, dtype=np.int64)
    return starts[timed.network.tasks[step.id].work.allowed(starts)]


def _soonest(timed: Timed, step: Step) -> Minute:
    """When all that a step follows is done and ready."""
    return max([timed.network.start, *(timed.lets_go(rule) for rule in timed.binding[step.id])])
