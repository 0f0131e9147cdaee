"""Air forbids a start: too cold or too damp while working or before it, or a layer it would spoil while it waits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.network.case import Case
from sequencer.network.hours import Openings
from sequencer.network.model import AllowedStarts, Mask, Minutes, Rule, StartTest, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Step
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit
from sequencer.waits.clock import WaitClock
from sequencer.waits.limits import broken_hours, felt_by

_ANYWHERE = Place("")
"""Stands for every place where the same limit is written."""


def rules(case: Case) -> Iterator[Rule]:
    """Allowed starts for every limit of a step's work and every limit that spoils its wait."""
    known: dict[tuple[Limit, RoomAir, Openings], StartTest] = {}
    unspoilt: dict[WaitClock, StartTest] = {}
    for step in case.job.steps:
        air, hours = case.air(step), case.hours_of(step)
        for limit in step.air:
            what = "the air that wet layers make" if _by_wet_layers(limit, air) else "the air in the room"
            text = f"{what} does not allow {step.title} sooner"
            why = Why("material", text, limit.place, None, _cause(step, limit))
            key = (replace(limit, place=_ANYWHERE, source=""), air, hours)
            if key not in known:
                known[key] = _while_working(limit, air, hours)
            yield AllowedStarts(step.id, known[key], why)
        for wait in step.waits:
            for limit in wait.limits:
                if limit.kind == "spoils":
                    text = f"the air would spoil {step.title} before it is ready"
                    why = Why("material", text, limit.place, None, _cause(step, limit))
                    clock = case.clock(step, wait)
                    yield AllowedStarts(step.id, unspoilt.setdefault(clock, _unspoilt(clock)), why)


def _by_wet_layers(limit: Limit, air: RoomAir) -> bool:
    """True if the water of layers breaks a limit in hours that would not break it."""
    if air.said is None or not felt_by(limit):
        return False
    without = replace(air, humidity=air.said, said=None)
    return bool(np.any(broken_hours(limit, air) & ~broken_hours(limit, without)))


def _cause(step: Step, limit: Limit) -> Cause:
    return Cause("air", step.id, str(limit.place))


def _while_working(limit: Limit, air: RoomAir, openings: Openings) -> StartTest:
    """No minute of work in a broken hour; for "before", no minute of the hours in front of the start either."""
    broken = broken_hours(limit, air)
    if not broken.any():
        return _always
    edges, bad = _bad_minutes(broken, air)
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


def _bad_minutes(broken: Mask, air: RoomAir) -> tuple[Minutes, Minutes]:
    """Hour edges, and the broken minutes before each."""
    edges = air.first + HOUR * np.arange(len(broken) + 1, dtype=np.int64)
    bad = np.concatenate([[0], np.cumsum(broken) * HOUR]).astype(np.int64)
    return edges, bad


def _unspoilt(clock: WaitClock) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> Mask:
        return clock.unspoilt(ends, clock.ready(ends))

    return allowed
