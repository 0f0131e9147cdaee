"""The tasks of the network: every step with the hours in which it can be done, and hand-over."""

from __future__ import annotations

from sequencer.network.case import Case
from sequencer.network.hours import WorkClock
from sequencer.network.model import HAND_OVER, Task
from sequencer.terms.job import Step


def tasks(case: Case) -> dict[str, Task]:
    """All tasks by id, in the order of the files; hand-over last, at any moment its trade works."""
    found = {step.id: Task(step.id, work_clock(case, step)) for step in case.job.steps}
    found[HAND_OVER] = Task(HAND_OVER, WorkClock(case.openings[case.job.hand_over_trade], 0))
    return found


def work_clock(case: Case, step: Step) -> WorkClock:
    """When a step can be done.

    Noise keeps to the hours the house allows; where people live, what takes a service off lies within one day; a trade
    that comes at an unknown hour takes its whole window.
    """
    trade = case.job.trades[step.trade]
    one_go = step.one_go or (case.job.house.lived_in and bool(step.services_off))
    return WorkClock(case.hours_of(step), step.minutes, one_go, whole_window=not trade.hour_known)
