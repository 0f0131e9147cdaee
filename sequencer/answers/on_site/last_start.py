"""The last start today of each step that starts today: "done by 14:15 or it is Monday".

A step may start so late that everything behind it, pushed back in the order of the plan, hand-over too, still starts
on its planned day. Every such start is asked of the rules themselves, waits in the air of the hours to
come (tonight's low) among them. Who was asked for an hour today and is late is late: what was arranged for the step
itself does not count; what is booked behind it does.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.answers.on_site.push import Lost, Pushed, from_then
from sequencer.answers.on_site.rest import Rest, Side
from sequencer.network.model import HAND_OVER, Mask, Minutes, Why
from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import DAY, HOUR, Minute, Span
from sequencer.writeup.timed import Timed

AHEAD = 28
"""How many days ahead a later start is looked for."""


@dataclass(frozen=True)
class Otherwise:
    """What loses its day after a last start: `id`, planned for `planned`, then starts at `at`; None: on no day near.

    `why`: what moves it. `too_late`: a layer is then not followed in time, that of step `by`.
    """

    id: str
    planned: Minute
    at: Minute | None
    why: Why
    by: str | None = None
    too_late: bool = False


@dataclass(frozen=True)
class LastStart:
    """A step that starts today: its planned `start`, the `last` with which nothing loses its day, `done_by` then.

    A step that began before and is to end today has no last start (None), only what it is to be done by.

    `coldest` [C]: the coldest hour its layer meets from then until what waits for it starts; None: nothing waits.
    `moves_hand_over`: what loses its day then has no room left before hand-over moves.
    """

    step: str
    start: Minute
    last: Minute | None
    done_by: Minute
    otherwise: Otherwise
    coldest: float | None
    moves_hand_over: bool


def last_starts(timed: Timed, plan: Plan, today: Span) -> tuple[LastStart, ...]:
    """The last start of every step that is to start today, and the last end of those that are to end today.

    Not of who comes at an unknown hour: for him all is ready when his window opens.
    """
    pushed, rest = Pushed(timed), Rest(timed)
    there = [step for step in plan.steps if rest.trade(step.id).hour_known]
    ending = [s for s in there if s.start < today[0] and today[0] < s.end <= today[1] and s.state != "done"]
    here = [s for s in there if today[0] <= s.start < today[1] and s.state in NOT_BEGUN]
    return (
        *(_last_end(pushed, rest, plan, step, today) for step in ending),
        *(last_start(pushed, rest, plan, step.id, today) for step in here),
    )


NOT_BEGUN = ("planned", "not told")
"""States of a step that still has a start."""


def last_start(pushed: Pushed, rest: Rest, plan: Plan, id: str, today: Span) -> LastStart:
    """The last start of a step that is planned for a day."""
    step = plan.step(id)
    starts = from_then(step.start, today[1])
    own = rest.free(id, starts, ("itself",)) & _in_time(rest, id, starts)
    own[0] = True
    starts = starts[own]
    good, lost = pushed.fits(id, rest.ends(id, starts))
    first_bad = int(np.argmin(good)) if not good.all() else len(good)
    last = int(starts[max(first_bad - 1, 0)])
    done_by = int(rest.ends(id, np.array([last], dtype=np.int64))[0])
    found = lost[first_bad] if first_bad < len(lost) else None
    otherwise = _itself(rest, id, last, today) if found is None else _moved(rest, found)
    return LastStart(
        id, step.start, last, done_by, otherwise, _coldest(rest, id, done_by), _moves_hand_over(plan, otherwise)
    )


def _last_end(pushed: Pushed, rest: Rest, plan: Plan, step: PlannedStep, today: Span) -> LastStart:
    """By when a step that goes on from the days before is to be done."""
    hours = rest.timed.case.hours_of(rest.timed.case.job.step(step.id))
    closes = hours.closes[(hours.opens < today[1]) & (hours.closes > today[0])]
    ends = from_then(step.end, int(closes[-1]) + 1 if len(closes) else step.end)
    good, lost = pushed.fits(step.id, ends)
    first_bad = len(good) if good.all() else int(np.argmin(good))
    found = lost[first_bad] if first_bad < len(lost) else None
    if found is not None:
        otherwise = _moved(rest, found)
    else:
        later = hours.opens[hours.opens >= today[1]]
        trade = rest.trade(step.id)
        why = Why("hours", f"no working hours of {trade.name} are left", trade.place)
        otherwise = Otherwise(step.id, step.end - 1, int(later[0]) if len(later) else None, why)
    done_by = int(ends[max(first_bad - 1, 0)])
    moves = _moves_hand_over(plan, otherwise)
    return LastStart(step.id, step.start, None, done_by, otherwise, _coldest(rest, step.id, done_by), moves)


def _in_time(rest: Rest, id: str, starts: Minutes) -> Mask:
    """True where no layer in front is followed too late."""
    in_time = np.ones(len(starts), dtype=np.bool_)
    for one in rest.against(id, starts):
        if one.side == "before" and one.lets_go is None:
            in_time &= ~one.broken
    return in_time


def _moved(rest: Rest, lost: Lost) -> Otherwise:
    """What lost its day, and the first start it then finds by its own hours and rules, if a layer bears it so late."""
    at = next_start(rest, lost.id, lost.since)
    if lost.latest is not None and (at is None or at > lost.latest):
        return Otherwise(lost.id, rest.timed.start(lost.id), None, lost.why, lost.by, too_late=True)
    return Otherwise(lost.id, rest.timed.start(lost.id), at, lost.why, lost.by)


def _itself(rest: Rest, id: str, last: Minute, today: Span) -> Otherwise:
    """The step itself finds no later start today."""
    planned = rest.timed.start(id)
    later = from_then(last, today[1])[1:]
    works = later[rest.works(id, later)]
    for one in rest.against(id, works[:1]):
        if one.side == "before" and one.lets_go is None:
            return Otherwise(id, planned, None, one.why, one.by, too_late=True)
        if one.side == "itself":
            return Otherwise(id, planned, next_start(rest, id, today[1]), one.why)
    trade = rest.trade(id)
    why = Why("hours", f"no working hours of {trade.name} are left", trade.place)
    return Otherwise(id, planned, next_start(rest, id, today[1]), why)


def next_start(rest: Rest, id: str, moment: Minute, sides: tuple[Side, ...] = ("itself",)) -> Minute | None:
    """The first start from a moment on that the step's own hours and these sides allow; None if no day near has one."""
    for day in range(AHEAD):
        starts = from_then(moment + day * DAY, moment + (day + 1) * DAY)
        free = starts[rest.free(id, starts, sides)]
        if len(free):
            return int(free[0])
    return None


def _moves_hand_over(plan: Plan, otherwise: Otherwise) -> bool:
    if otherwise.id == HAND_OVER:
        return True
    slip = plan.step(otherwise.id).room_for_a_slip
    return slip is not None and (otherwise.at is None or otherwise.at - otherwise.planned > slip)


def _coldest(rest: Rest, id: str, done_by: Minute) -> float | None:
    """The coldest hour from the end of work until the first step that waits for the layer starts."""
    timed = rest.timed
    waits = [hearing.listener.id for hearing in timed.hearings if hearing.giver.id == id and hearing.wait is not None]
    if not waits:
        return None
    until = max(min(timed.start(listener) for listener in waits), done_by + HOUR)
    return float(timed.case.air(timed.case.job.step(id)).between(done_by, until).temperature.min())
