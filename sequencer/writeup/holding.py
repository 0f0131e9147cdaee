"""What holds a task of a finished plan back: what let go of it, what forbade it, what it would have run into."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np

from sequencer.network.model import HAND_OVER, AllowedStarts, Claim, Why, Window
from sequencer.network.taken import taken_by
from sequencer.terms.minute import Minute
from sequencer.writeup.timed import Timed, at

A_QUARTER = 15
"""Starts are given to the quarter of an hour: a step this near to what let it go waited for nothing else [min]."""


@dataclass(frozen=True)
class Letting:
    """Task `by` lets go of another at a moment; why, as a rule says it or, of a claim, once it is asked for."""

    moment: Minute
    by: str
    because: Why | Callable[[], Why]

    @property
    def why(self) -> Why:
        """Why the other had to wait."""
        return self.because if isinstance(self.because, Why) else self.because()


@dataclass(frozen=True)
class Forbidding:
    """A rule that forbids a start. `always`: it forbids every earlier one too."""

    why: Why
    always: bool


def lets_go(timed: Timed, id: str, start: Minute) -> Iterator[Letting]:
    """The moments at which others let go of a task, none after its start; of those who share something the last two."""
    for rule in timed.binding[id]:
        yield Letting(timed.lets_go(rule), rule.before, rule.why)
    for group in timed.sharing[id]:
        for until, claim in group.over_by(start, id):
            yield Letting(until, claim.closes_with, partial(_taken_by, timed, claim, group.why))


def forbids(timed: Timed, id: str, moment: Minute, start: Minute) -> Forbidding | None:
    """The rule that forbids a start at a moment, or else the most of the time from then to the start."""
    work = timed.network.tasks[id].work
    moments = np.arange(moment, start, A_QUARTER, dtype=np.int64)
    moments = moments[work.allowed(moments)]
    ends = work.ends(moments)
    worst: tuple[int, AllowedStarts] | None = None
    for rule in timed.allowing[id]:
        if len(moments):
            allowed = rule.allowed(moments, ends)
            forbidden = int(np.count_nonzero(~allowed))
            if not allowed[0] and (worst is None or forbidden > worst[0]):
                worst = (forbidden, rule)
    return Forbidding(worst[1].why, _always(timed, worst[1], start)) if worst else None


def in_the_way(timed: Timed, id: str, moment: Minute) -> Why | None:
    """The claim a task would run into if it started at a moment."""
    end = at(timed.network.tasks[id].work.ends, moment)
    for group in timed.sharing[id]:
        for own in group.of(id):
            until = end if own.until is None or own.last else at(own.until, end)
            claim = group.during(moment, until, id)
            if claim is not None:
                return _taken_by(timed, claim, group.why)
    return None


def too_early(timed: Timed, id: str, moment: Minute) -> Window | None:
    """The window that what follows a task would miss, as it is in the plan, if the task started at a moment."""
    end = at(timed.network.tasks[id].work.ends, moment)
    return next((rule for rule in timed.windows[id] if timed.start(rule.after) > at(rule.latest, end)), None)


def trade_of(timed: Timed, id: str) -> str:
    """Who does a task."""
    return timed.case.job.hand_over_trade if id == HAND_OVER else timed.case.job.step(id).trade


def _always(timed: Timed, rule: AllowedStarts, start: Minute) -> bool:
    work = timed.network.tasks[rule.task].work
    moments = np.arange(timed.network.start, start, A_QUARTER, dtype=np.int64)
    moments = moments[work.allowed(moments)]
    return not rule.allowed(moments, work.ends(moments)).any()


def _taken_by(timed: Timed, claim: Claim, what: Why) -> Why:
    closed = timed.until(claim) > timed.end(claim.task)
    title = "hand-over" if claim.task == HAND_OVER else timed.case.job.step(claim.task).title
    return taken_by(what, claim, title, closed)
