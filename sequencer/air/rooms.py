"""The air of all rooms of a job, laid out hour by hour."""

from __future__ import annotations

from sequencer.air.hourly import RoomAir, hourly_air
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY

AIR_BEYOND = 90 * DAY
"""Air is laid out this far past the calendars, for what still dries when the last step is done [min]."""


def airs(job: Job) -> dict[str, RoomAir]:
    """The air of every room, from the start of the job past the end of its calendars; rooms alike share theirs."""
    alike = {said: hourly_air(said, job.start - DAY, job.horizon + AIR_BEYOND) for said in {r.air for r in job.rooms}}
    return {room.name: alike[room.air] for room in job.rooms}
