"""A layer must be followed in time: every step that hears a wait starts within its latest."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from sequencer.network.case import Case
from sequencer.network.model import MinuteFunction, Minutes, Rule, Why, Window
from sequencer.terms.cause import Cause
from sequencer.waits.clock import WaitClock


def rules(case: Case) -> Iterator[Rule]:
    """A window for every hearing whose wait has a latest; none on what lies behind, where it may be followed late."""
    too_late = set(case.job.past or {}) if case.job.followed_late else set()
    for hearing in case.hearings:
        wait = hearing.wait
        if wait is not None and wait.within_minutes is not None and hearing.giver.id not in too_late:
            text = f"{hearing.listener.title} must follow {hearing.giver.title} in time"
            why = Why("material", text, wait.place, hearing.giver.id, Cause("within", hearing.giver.id, wait.purpose))
            yield Window(hearing.giver.id, hearing.listener.id, case.by_clock(hearing.giver, wait, _latest), why)


def _latest(clock: WaitClock) -> MinuteFunction:
    within = clock.wait.within_minutes or 0

    def latest(ends: Minutes) -> Minutes:
        return np.asarray((clock.ready(ends) if clock.wait.within_of_ready else ends) + within)

    return latest
