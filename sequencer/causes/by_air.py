"""Giving by other air: a room is aired, heated or dried until a limit is kept, or a layer is ready in time."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import ceil

from sequencer.causes.ladder import Ladder
from sequencer.causes.say import limit_of
from sequencer.terms.air import AirStatement
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Room, Step
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.felt import feels_humidity
from sequencer.waits.wetting import layer_of, wet_room

WARMER = 2.0
"""How much warmer than it needs to be a room is best heated [K]: heaters swing; common practice, no source."""

COOLEST, HOTTEST = 12, 30
"""To what a room is heated for a layer that has to dry or set [C]: from hardly to as far as heaters go; common
practice, no source."""

DRIED = (70, 60, 50, 40)
"""To what a room is dried [%]: as dry as a dehumidifier on site makes it; common practice, no source."""

FLOWS = range(20, 301, 20)
"""Air that a window or fan may bring into a room beside what it has [m3/h]: up to a strong one; common practice, no
source."""

BY_THE_CLOCK = "fixed"
"""The law that feels no air."""


def by_air(job: Job, cause: Cause) -> Iterator[Ladder]:
    """The ways to give a wait or a limit by other air in its room, what is least trouble first."""
    limit = limit_of(job, cause) if cause.kind == "air" else None
    wait = job.step(cause.of).wait_for(cause.what) if cause.kind == "wait" else None
    if limit is None and wait is None:
        return
    step = job.step(cause.of)
    yield from _aired(job, step, wait)
    warm, dry = _warmths(limit, wait), _drynesses(limit, wait)
    if warm:
        yield Ladder(
            warm, lambda to: _with_air(job, step, to, None), lambda to: f"heat the room (air: heated to {to} C)"
        )
    if dry:
        yield Ladder(dry, lambda to: _with_air(job, step, None, to), lambda to: f"dry the room (air: dried to {to} %)")
    if warm and dry:
        driest = dry[-1]
        yield Ladder(
            warm,
            lambda to: _with_air(job, step, to, driest),
            lambda to: f"heat and dry the room (air: heated to {to} C, dried to {driest} %)",
        )


def _warmths(limit: Limit | None, wait: Wait | None) -> range:
    """To what the room may be heated so that it helps [C]."""
    if limit is None:
        feels = wait is not None and (_feels_air(wait) or any(one.coldest is not None for one in wait.limits))
        return range(COOLEST, HOTTEST + 1) if feels else range(0)
    if limit.coldest is None and limit.above_dew_point is None:
        return range(0)
    coolest = COOLEST if limit.coldest is None else ceil(limit.coldest + WARMER)
    return range(coolest, HOTTEST + 1 if limit.hottest is None else int(limit.hottest) + 1)


def _drynesses(limit: Limit | None, wait: Wait | None) -> tuple[int, ...]:
    """To what the room may be dried so that it helps [%]."""
    if limit is None:
        return DRIED if wait is not None and feels_humidity(wait) else ()
    if limit.dampest is None and limit.above_dew_point is None:
        return ()
    driest = 0.0 if limit.driest is None else limit.driest
    return tuple(to for to in DRIED if driest <= to / 100 <= (limit.dampest or 1.0))


def _feels_air(wait: Wait) -> bool:
    return any(stage.law != BY_THE_CLOCK for stage in (wait, *wait.then))


def _with_air(job: Job, step: Step, warmth: int | None, humidity: int | None) -> Job:
    """The job with a step's room heated [C] or dried [%] all the time."""

    def said(room: Room) -> Room:
        more = [_statement(job, room.place, warmth, None, "heated")] if warmth is not None else []
        more += [_statement(job, room.place, None, humidity / 100, "dried")] if humidity is not None else []
        return replace(room, air=replace(room.air, statements=(*room.air.statements, *more)))

    return _with_room(job, step.room, said)


def _statement(job: Job, place: Place, warmth: float | None, humidity: float | None, how: str) -> AirStatement:
    return AirStatement(job.start, job.horizon, warmth, humidity, how, place)


def _with_room(job: Job, name: str, change: Callable[[Room], Room]) -> Job:
    return replace(job, rooms=tuple(change(room) if room.name == name else room for room in job.rooms))


def _aired(job: Job, step: Step, wait: Wait | None) -> Iterator[Ladder]:
    """More air through a room that a layer's own water makes damp, while the layer stands."""
    room = wet_room(job.room(step.room))
    if wait is None or room is None or layer_of(step) is None or not feels_humidity(wait):
        return

    def aired(flow: int) -> Job:
        return _with_room(job, step.room, lambda one: replace(one, air_changes=one.air_changes + flow / room.volume))

    yield Ladder(
        FLOWS,
        aired,
        lambda flow: f"a drier room: a window or fan that brings {flow} m3/h more, or a dehumidifier",
    )
