"""A published instance as a network of ours: a unit is a minute and a slot of the finest grid, and a half-day is one
slot, so that hand-over counted in half-days is the makespan."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from published import Lag, Project

from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    AtMost,
    Claim,
    MinuteFunction,
    Network,
    Order,
    Rule,
    Task,
    WaitFor,
    Why,
    Window,
)
from sequencer.terms.job import Workday

ZERO = 1
"""The minute at which an instance begins: off the five minutes, so that every task has the finest grid. On a coarser
one exact lags would have some tasks laid far finer than the units they need."""

PUBLISHED = Why("material", "published")
SHARED = Why("people", "published")


def network(project: Project) -> Network:
    """Tasks, lags and capacities of an instance; the last activity is hand-over."""
    length = ZERO + project.clock(project.longest) + 1
    always = Openings((Workday(((ZERO, 2 * length),)),))
    working = always if project.open_units is None else Openings((Workday(tuple(_spans(project.open_units))),))
    ids = names(project)
    tasks = {
        id: Task(id, WorkClock(working if activity.length else always, activity.length))
        for id, activity in zip(ids, project.activities, strict=True)
    }
    at_zero = AllowedStarts(ids[0], lambda starts, ends: starts == ZERO, PUBLISHED)
    rules = (at_zero, *_lags(project, ids), *_capacities(project, ids))
    return Network(tasks, rules, tuple(range(ZERO, length + 1)), 0, length)


def names(project: Project) -> list[str]:
    """The id of every activity's task."""
    return [*(str(number) for number in range(project.sink)), HAND_OVER]


def _spans(units: tuple[int, ...]) -> Iterator[tuple[int, int]]:
    edges = np.flatnonzero(np.diff(units) != 1)
    firsts, lasts = [0, *(edges + 1).tolist()], [*edges.tolist(), len(units) - 1]
    for first, last in zip(firsts, lasts, strict=True):
        yield ZERO + units[first], ZERO + units[last] + 1


def _lags(project: Project, ids: list[str]) -> Iterator[Rule]:
    """Every lag, said from the activity that is placed first: list passes look at what is placed already.

    A positive lag is a wait. Any other one limits its first activity from above if that comes after its second one by
    the waits said so far, else its second one from below.
    """
    reached = [{number} for number in range(len(ids))]
    for lag in sorted(project.lags, key=lambda lag: lag.units <= 0):
        length = project.activities[lag.before].length
        backwards = lag.units <= 0 and lag.before in reached[lag.after] and lag.units != length
        if backwards:
            other = project.activities[lag.after].length
            yield Window(ids[lag.after], ids[lag.before], _from_start(other, -lag.units), PUBLISHED)
            continue
        for them in reached:
            if lag.before in them:
                them |= reached[lag.after]
        yield _wait(lag, length, ids)


def _wait(lag: Lag, length: int, ids: list[str]) -> Rule:
    if lag.units == length:
        return Order(ids[lag.before], ids[lag.after], PUBLISHED)
    return WaitFor(ids[lag.before], ids[lag.after], _from_start(length, lag.units), PUBLISHED)


def _from_start(length: int, units: int) -> MinuteFunction:
    """So many units after the start of an activity, as a function of its end."""
    return lambda ends: ends + units - length


def _capacities(project: Project, ids: list[str]) -> Iterator[Rule]:
    for number, capacity in enumerate(project.capacities):
        claims = tuple(
            Claim(id, amount=activity.needs[number])
            for id, activity in zip(ids, project.activities, strict=True)
            if activity.needs[number] and activity.length
        )
        if claims:
            yield AtMost(capacity, claims, SHARED)
