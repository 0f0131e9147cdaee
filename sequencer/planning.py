"""The one door to a plan: files in, an audited plan out. Every answer is a fresh plan on changed inputs."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from functools import cached_property, partial
from pathlib import Path

from sequencer.air.hourly import RoomAir, hourly_air
from sequencer.audit import Times, audit
from sequencer.causes.no_order import no_order_fits
from sequencer.files import read_job
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import Network
from sequencer.plan import Plan
from sequencer.solve import Answer, NoAnswer, first_answer, solve, sooner
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute
from sequencer.writeup import times_of, write
from sequencer.writeup.timed import Timed

AIR_BEYOND = 90 * DAY
"""Air is laid out this far past the calendars, for what still dries when the last step is done [min]."""

SOONER_EFFORT = 2.0
"""Limit of asking whether a job can be done sooner [deterministic seconds of the solver]."""

Tell = Callable[[str], None]


class NoOrderFits(Exception):
    """No order of work fits all the rules; `sentences` say so and name what found no place, or which rules collide.

    `collide` looks for these rules, which takes seconds: it is asked when the sentences are read for the first time.
    """

    def __init__(self, sentences: tuple[str, ...], collide: Callable[[], tuple[str, ...]] = tuple) -> None:
        super().__init__("\n".join(sentences))
        self._first = sentences
        self._collide = collide

    @cached_property
    def sentences(self) -> tuple[str, ...]:
        """What to tell."""
        colliding = self._collide()
        return (self._first[0], *colliding) if colliding else self._first


class BrokenPlan(AssertionError):
    """The audit found the solver's plan to break rules: a fault of the program, never of the files."""


def plan_for(folder: Path, today: date | None = None, effort: float = 1.0, told: Tell = lambda _: None) -> Plan:
    """The plan of the job in a folder (or of a job file). `effort` scales the solver's limits, 0: a first plan alone.

    Faulty with every fault of the files; NoOrderFits if no plan exists or none was found.
    """
    return plan_of(read_job(folder, today), effort, told)


def plan_of(job: Job, effort: float = 1.0, told: Tell = lambda _: None) -> Plan:
    """The plan of a job already read."""
    case = Case(job, airs(job))
    network = build(case)
    try:
        answer = solve(network, effort, told) if effort else first_answer(network)
    except NoAnswer as none:
        raise NoOrderFits(_sentences(job, none), partial(no_order_fits, job, case.airs)) from none
    return _audited(case, network, answer)


def can_be_sooner(job: Job, than: Minute, effort: float = 1.0) -> bool | None:
    """Whether a job can hand over in an earlier half-day than that of a moment; None if the effort did not tell."""
    return sooner(build(Case(job, airs(job))), than, SOONER_EFFORT * effort)


def timed(job: Job, plan: Plan) -> Timed:
    """A job beside the times of its plan, for whoever asks what held its steps up."""
    case = Case(job, airs(job))
    return Timed(case, build(case), Times({step.id: step.pieces for step in plan.steps}, plan.finish))


def airs(job: Job) -> dict[str, RoomAir]:
    """The air of every room, from the start of the job past the end of its calendars."""
    return {room.name: hourly_air(room.air, job.start - DAY, job.horizon + AIR_BEYOND) for room in job.rooms}


def _audited(case: Case, network: Network, answer: Answer) -> Plan:
    times = times_of(network, answer)
    job = case.job
    kept = tuple(booking for booking in job.bookings if booking.step not in answer.released)
    broken = audit(job if len(kept) == len(job.bookings) else job.with_bookings(kept), case.airs, times)
    if broken:
        raise BrokenPlan("\n".join(broken))
    return write(case, network, answer, times)


def _sentences(job: Job, none: NoAnswer) -> tuple[str, ...]:
    steps = {step.id: step for step in job.steps}
    blocked = [steps[id] for id in none.blocked if id in steps]
    first = "No order of work fits all the rules." if none.certain else "No order of work was found that fits."
    return (first, *(f"{step.title} ({step.id}) finds no place: {step.place}" for step in blocked))
