"""The tasks of the network: every step with the hours in which it can be done, and hand-over."""

from __future__ import annotations

from sequencer.network.case import Case
from sequencer.network.hours import WorkClock
from sequencer.network.model import HAND_OVER, Task
from sequencer.network.recorded import RecordedClock
from sequencer.terms.job import Step
from sequencer.terms.past import Past


def tasks(case: Case) -> dict[str, Task]:
    """All tasks by id, in the order of the files; hand-over last, at any moment its trade works."""
    past = case.job.past or {}
    found = {
        step.id: Task(step.id, _recorded(case, step, past[step.id]) if step.id in past else work_clock(case, step))
        for step in case.job.steps
    }
    found[HAND_OVER] = Task(HAND_OVER, WorkClock(case.hand_over_hours, 0))
    return found


def _recorded(case: Case, step: Step, past: Past) -> WorkClock:
    return RecordedClock(case.hours_of(step), past.pieces)


def work_clock(case: Case, step: Step) -> WorkClock:
    """When a step can be done.

    Nobody works where the house is shut, and noise keeps to the hours it allows; where people live, what takes a
    service off lies within one day; a trade that comes at an unknown hour takes its whole window.
    """
    trade = case.job.trades[step.trade]
    one_go = step.one_go or (case.job.house.lived_in and bool(step.services_off))
    return WorkClock(case.hours_of(step), step.minutes, one_go, whole_window=not trade.hour_known)
