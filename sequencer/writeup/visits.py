"""Visits: each run of a trade's own working days in the job, and by when to call."""

from __future__ import annotations

from bisect import bisect_right

from sequencer.plan import Visit
from sequencer.terms.job import Job, Step, Trade
from sequencer.terms.minute import Minute
from sequencer.terms.told import ToldVisit
from sequencer.writeup.timed import Timed
from sequencer.writeup.visit_names import visit_names
from sequencer.writeup.visit_state import visit_state


def visits(timed: Timed) -> tuple[Visit, ...]:
    """The visits of every trade but the one whose job it is, by start, then trade."""
    job = timed.case.job
    found = []
    for trade in job.trades.values():
        if trade.name == job.hand_over_trade:
            continue
        steps = sorted((s for s in job.steps if s.trade == trade.name), key=lambda s: (timed.start(s.id), s.id))
        runs = _runs(timed, trade, steps)
        names = visit_names(trade.name, [tuple(step.id for step in run) for run in runs], job.told)
        found += [_visit(timed, trade, *name, run) for name, run in zip(names, runs, strict=True)]
    return tuple(sorted(found, key=lambda visit: (visit.start, visit.trade)))


def _runs(timed: Timed, trade: Trade, steps: list[Step]) -> list[list[Step]]:
    """Steps that follow each other on the same or the next of the trade's own days."""
    runs: list[list[Step]] = []
    last = -2
    for step in steps:
        first = day_number(trade, timed.start(step.id))
        if runs and first <= last + 1:
            runs[-1].append(step)
        else:
            runs.append([step])
        last = max(last, first, day_number(trade, timed.end(step.id) - 1))
    return runs


def day_number(trade: Trade, moment: Minute) -> int:
    """The number of the trade's day that holds or last preceded a moment."""
    return bisect_right(trade.days, moment, key=lambda day: day.spans[0][0]) - 1


def _visit(timed: Timed, trade: Trade, name: str, told: ToldVisit | None, steps: list[Step]) -> Visit:
    start = timed.start(steps[0].id)
    ids = tuple(step.id for step in steps)
    state = visit_state(timed.case.job, ids)
    return Visit(
        id=name,
        trade=trade.name,
        start=start,
        end=max(timed.end(step.id) for step in steps),
        steps=ids,
        state=state,
        call_by=None if state in ("firm", "done") else _call_by(timed.case.job, trade, start),
        told=told.start if told is not None else None,
    )


def _call_by(job: Job, trade: Trade, start: Minute) -> Minute | None:
    """The last moment to ask: the office's hour, or the end of the working day that notice before the visit leaves."""
    if trade.ask_by:
        return trade.ask_by[day_number(trade, start)]
    if not trade.notice_days:
        return None
    before = [end for _, end in job.working_days if end <= start]
    return before[-trade.notice_days] if len(before) >= trade.notice_days else job.now
