"""Air forbids a start: too cold or too damp while working or before it, or a layer it would spoil while it waits."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import replace

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Step
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit
from sequencer.waits.clock import WaitClock
from sequencer.waits.felt import felt_by
from sequencer.waits.limits import broken_hours

_ANYWHERE = Place("")
"""Stands for every place where the same limit is written."""


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every limit of a step's work and every limit that spoils its wait."""
    hours_broken = case.once(_hours_broken)
    for step in case.job.steps:
        known = case.in_room(step.room).of_air
        if step.id not in known:
            known[step.id] = tuple(_of_step(case, step, hours_broken))
        yield from known[step.id]


def _of_step(case: Case, step: Step, hours_broken: dict[Hashable, Mask]) -> Iterator[Rule]:
    known = case.ground.tests
    for limit in step.air:
        said, hours = case.said_of(step), case.hours_of(step)
        air = case.air_of(step) if felt_by(limit) else said
        dry = _broken(limit, said, hours_broken)
        broken = dry if air is said else broken_hours(limit, air)
        by_layers = air is not said and bool(np.any(broken & ~dry))
        what = "the air that wet layers make" if by_layers else "the air in the room"
        text = f"{what} does not allow {step.title} sooner"
        why = Why("material", text, limit.place, None, _cause(step, limit))
        key = limit.kind, limit.hours_before, broken.tobytes(), said.first, hours
        test = known.get(key)
        if test is None:
            known[key] = test = _while_working(limit, broken, said.first, hours)
        yield AllowedStarts(step.id, test, why)
    for wait in step.waits:
        for limit in wait.limits:
            if limit.kind == "spoils":
                text = f"the air would spoil {step.title} before it is ready"
                why = Why("material", text, limit.place, None, _cause(step, limit))
                clock = case.clock(step, wait)
                test = known.get(clock)
                if test is None:
                    known[clock] = test = _unspoilt(clock)
                yield AllowedStarts(step.id, test, why)


def _hours_broken(case: Case) -> dict[Hashable, Mask]:
    """For the hours that break limits in the air as it is said to be: it is the same in all airs of the job."""
    return {}


def _broken(limit: Limit, air: RoomAir, known: dict[Hashable, Mask]) -> Mask:
    """The hours that break a limit, worked out once for all places where it is written."""
    key = replace(limit, place=_ANYWHERE, source=""), air
    if key not in known:
        known[key] = broken_hours(limit, air)
    return known[key]


def _cause(step: Step, limit: Limit) -> Cause:
    return Cause("air", step.id, str(limit.place))


def _while_working(limit: Limit, broken: Mask, first: Minute, openings: Openings) -> StartTest:
    """No minute of work in a broken hour; for "before", no minute of the hours in front of the start either."""
    if not broken.any():
        return _always
    edges, bad = _bad_minutes(broken, first)
    worked = np.array([], dtype=np.int64)
    if len(openings.opens):
        grid = np.sort(np.concatenate([edges, openings.opens, openings.closes]))
        grid = grid[np.diff(grid, prepend=-1) > 0]
        bad_then = np.interp(grid, edges, bad)
        open_then = openings.worked(grid)
        rises = np.minimum(np.diff(bad_then, prepend=bad_then[:1]), np.diff(open_then, prepend=open_then[:1]))
        edges_worked, worked = grid, np.cumsum(rises)

    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        met = np.interp(ends, edges_worked, worked) - np.interp(starts, edges_worked, worked)
        ok = met < 0.5
        if limit.kind == "before":
            early = starts - round(limit.hours_before * HOUR)
            ok &= np.interp(starts, edges, bad) - np.interp(early, edges, bad) < 0.5
        return np.asarray(ok)

    return allowed


def _always(starts: Minutes, ends: Minutes) -> Mask:
    return np.ones(len(starts), dtype=np.bool_)


def _bad_minutes(broken: Mask, first: Minute) -> tuple[Minutes, Minutes]:
    """Hour edges, and the broken minutes before each."""
    edges = first + HOUR * np.arange(len(broken) + 1, dtype=np.int64)
    bad = np.concatenate([[0], np.cumsum(broken) * HOUR]).astype(np.int64)
    return edges, bad


def _unspoilt(clock: WaitClock) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return clock.unspoilt(ends, clock.ready(ends))

    return allowed
