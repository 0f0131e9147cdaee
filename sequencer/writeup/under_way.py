"""Layers that set or dry today: how far they are by the air so far, and what the readings changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from sequencer.air.hourly import RoomAir, hourly_air
from sequencer.air.layers import HOW
from sequencer.network.case import Case
from sequencer.plan import UnderWay
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.progress import NEVER
from sequencer.waits.table import LAWS
from sequencer.writeup.timed import Timed, at

READ = HOW.index("reading")


def under_way(timed: Timed) -> tuple[UnderWay, ...]:
    """Every wait whose work is done by today and that is not over yet, soonest ready first."""
    job = timed.case.job
    now = job.now if job.today is None else job.today
    running = [
        (step, wait)
        for step in job.steps
        for wait in step.waits
        if timed.end(step.id) <= now < timed.ready(step, wait) < NEVER
    ]
    alone = _without_readings(timed.case) if running else timed.case
    found = (one for step, wait in running for one in _one(timed, alone, step, wait, now))
    return tuple(sorted(found, key=lambda one: (one.ready, one.step, one.purpose)))


def _one(timed: Timed, alone: Case, step: Step, wait: Wait, now: Minute) -> Iterator[UnderWay]:
    clock, end, ready = timed.case.clock(step, wait), timed.end(step.id), timed.ready(step, wait)
    said = at(alone.clock(step, wait).ready, end)
    people = timed.case.job.told
    pieces = people.pieces.get(step.id) if people is not None else None
    told = at(alone.clock(step, wait).ready, pieces[-1][1]) if pieces else ready
    yield UnderWay(
        step=step.id,
        purpose=wait.purpose,
        share=clock.share(end, now),
        ready=ready,
        so_far=(now - end) / HOUR,
        read=_read(clock.air, wait, end, now) if now > end else 0,
        ready_as_said=said if said != ready and said < NEVER else None,
        ready_as_told=told if told != ready and told < NEVER else None,
    )


def _read(air: RoomAir, wait: Wait, end: Minute, now: Minute) -> int:
    """Hours of the wait so far in which a meter read what its law feels."""
    here, law = air.between(end, now), LAWS[wait.law]
    read = here.how_temperature == READ
    if law.family.humidity_counts:
        read &= here.how_humidity == READ
    return int(np.count_nonzero(read))


def _without_readings(case: Case) -> Case:
    """The same job in the air that is said of its rooms, and no meter."""
    job: Job = case.job
    rooms = tuple(replace(room, air=replace(room.air, readings=())) for room in job.rooms)
    airs = {room.name: hourly_air(room.air, case.airs[room.name].first, case.airs[room.name].end) for room in rooms}
    return Case(replace(job, rooms=rooms), airs, case.drying)
