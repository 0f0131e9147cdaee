"""Giving by degrees what the house and its rooms ask for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from sequencer.causes.by_material import DAYS_TRIED, window_ladder
from sequencer.causes.ladder import HALF_AN_HOUR, Ladder
from sequencer.causes.without import with_steps
from sequencer.terms.cause import Cause
from sequencer.terms.house import House
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, HOUR, Span
from sequencer.waits.words import length

LONGER = 8 * HOUR
"""How much longer hours are made at most [min]. The grain of an answer, nothing else."""

ROOM_FOR = 4
"""Steps in a room at once that are tried at most. The grain of an answer, nothing else."""


def service(job: Job, cause: Cause) -> Iterator[Ladder]:
    """Off for longer at a time."""
    now, house = job.house.services[cause.of], job.house
    yield Ladder(
        range(now + HALF_AN_HOUR, DAY + 1, HALF_AN_HOUR),
        lambda longer: replace(job, house=replace(house, services={**house.services, cause.of: longer})),
        lambda longer: f"{cause.of} off for {length(longer)} at a time instead of {length(now)}",
    )


def toilet(job: Job, cause: Cause) -> Iterator[Ladder]:
    """More nights without."""
    house = job.house
    now = next(absence.nights for absence in house.absences if absence.off == cause.of)

    def longer(nights: int) -> Job:
        absences = (replace(one, nights=nights) if one.off == cause.of else one for one in house.absences)
        return replace(job, house=replace(house, absences=tuple(absences)))

    yield Ladder(
        range(now + 1, now + DAYS_TRIED),
        longer,
        lambda nights: f"{nights} night{'s' * (nights > 1)} without a toilet instead of {now}",
    )


def look_in(job: Job, cause: Cause) -> Iterator[Ladder]:
    """Left alone for longer."""
    now = job.step(cause.of).look_in
    assert now is not None

    def less_often(minutes: int) -> Job:
        return with_steps(job, cause.of, lambda step: replace(step, look_in=replace(now, minutes=minutes)))

    yield Ladder(
        window_ladder(now.minutes),
        less_often,
        lambda minutes: f"left alone for {length(minutes)} instead of {length(now.minutes)}",
    )


def room(job: Job, cause: Cause) -> Iterator[Ladder]:
    """More steps at once."""
    now = job.room(cause.of).at_once

    def wider(count: int) -> Job:
        rooms = (replace(one, at_once=count) if one.name == cause.of else one for one in job.rooms)
        return replace(job, rooms=tuple(rooms))

    yield Ladder(
        range(now + 1, ROOM_FOR + 1), wider, lambda count: f"{count} steps in the room at once instead of {now}"
    )


def noise(job: Job, cause: Cause) -> Iterator[Ladder]:
    """Noise until later, or from an earlier hour."""
    return _longer(job, job.house.noise, lambda spans: replace(job.house, noise=spans), "noise")


def access(job: Job, cause: Cause) -> Iterator[Ladder]:
    """The house open until later, or from an earlier hour."""
    return _longer(job, job.house.access, lambda spans: replace(job.house, access=spans), "the house open")


def lift(job: Job, cause: Cause) -> Iterator[Ladder]:
    """The lift booked until later, or from an earlier hour."""
    return _longer(job, job.house.lift, lambda spans: replace(job.house, lift=spans), "the lift booked")


Hours = tuple[Span, ...]


def _longer(job: Job, spans: Hours | None, change: Callable[[Hours], House], what: str) -> Iterator[Ladder]:
    """All its hours longer, at their ends or else at their beginnings."""
    for before, after, words in ((0, 1, "until {} later"), (1, 0, "from {} earlier on")):
        yield Ladder(
            range(HALF_AN_HOUR, LONGER + 1, HALF_AN_HOUR),
            partial(_changed, job, spans or (), change, before, after),
            partial(lambda words, more: f"{what} {words.format(length(more))}", words),
        )


def _changed(job: Job, spans: Hours, change: Callable[[Hours], House], before: int, after: int, more: int) -> Job:
    return replace(job, house=change(_joined((start - before * more, end + after * more) for start, end in spans)))


def _joined(spans: Iterable[Span]) -> Hours:
    """Spans in order, those that meet as one."""
    found: list[Span] = []
    for start, end in spans:
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return tuple(found)
