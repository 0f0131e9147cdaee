"""The one door to a plan: files in, an audited plan out. Every answer is a fresh plan on changed inputs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
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
from sequencer.plan import GivenUp, Plan
from sequencer.solve import Answer, NoAnswer, first_answer, solve, sooner
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute
from sequencer.writeup import times_of, write
from sequencer.writeup.timed import Timed

ROUNDS, SETTLING = 4, 8
"""How often a plan is made until its air settles: exactly, and then at least to no air that comes too soon."""

AIR_BEYOND = 90 * DAY
"""Air is laid out this far past the calendars, for what still dries when the last step is done [min]."""

SOONER_EFFORT = 2.0
"""Limit of asking whether a job can be done sooner [deterministic seconds of the solver]."""

Tell = Callable[[str], None]


NO_ORDER = "No order of work fits all the rules."


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
        return (NO_ORDER, *colliding) if colliding else self._first


class BrokenPlan(AssertionError):
    """The audit found the solver's plan to break rules: a fault of the program, never of the files."""


def plan_for(folder: Path, today: date | None = None, effort: float = 1.0, told: Tell = lambda _: None) -> Plan:
    """The plan of the job in a folder (or of a job file). `effort` scales the solver's limits, 0: a first plan alone.

    Faulty with every fault of the files; NoOrderFits if no plan exists or none was found.
    """
    return plan_of(read_job(folder, today), effort, told)


def plan_of(job: Job, effort: float = 1.0, told: Tell = lambda _: None) -> Plan:
    """The plan of a job already read.

    Where air begins with the end of a step, the plan is made again until that end is where the air took it to be; if it
    does not settle, the air is taken to change as late as any of these plans had it, and the plan says so. What is
    proven for that air alone is not called the shortest: the first of these plans has the new air from the job's start,
    and no hand-over it allows is ruled out.
    """
    ends = {step: job.start for switch in job.switches for step in switch.steps}
    answers: list[Answer] = []
    for again in range(SETTLING):
        case, network, answer, times = _solved(job.with_air_from(ends), effort, told)
        answers.append(answer)
        here = {step: times.pieces[step][-1][1] for switch in job.switches for step in switch.steps}
        if here == ends or (again >= ROUNDS and all(here[step] <= ends[step] for step in here)):
            break
        if answer.interrupted:
            raise KeyboardInterrupt
        ends = {step: max(at, ends.get(step, at)) for step, at in here.items()} if again + 1 >= ROUNDS else here
    else:
        raise NoOrderFits(("No order of work was found that fits.", *_late(job, ends)))
    answer = _no_surer(answer, answers[0])
    return _audited(case, network, answer, times, _late(job, (step for step in here if here[step] < ends[step])))


def _no_surer(answer: Answer, other: Answer) -> Answer:
    """An answer that rules out no hand-over which another does not rule out."""
    first, *rest = answer.goals
    bound = min(first.bound, other.goals[0].bound)
    at_best = min(answer.hand_over_at_best, other.hand_over_at_best)
    return replace(answer, goals=(replace(first, bound=bound), *rest), hand_over_at_best=at_best)


def _solved(job: Job, effort: float, told: Tell) -> tuple[Case, Network, Answer, Times]:
    case = Case(job, airs(job))
    network = build(case)
    try:
        answer = solve(network, effort, told) if effort else first_answer(network)
    except NoAnswer as none:
        raise NoOrderFits(_sentences(job, none), partial(no_order_fits, job, case.airs)) from none
    return case, network, answer, times_of(network, answer)


def _late(job: Job, steps: Iterable[str]) -> tuple[str, ...]:
    """Air that is taken to change later than the step it begins with is done, in sentences."""
    return tuple(f"air after {job.step(id).title} ({id}) taken to begin later: no plan settles it" for id in steps)


def can_be_sooner(job: Job, than: Minute, effort: float = 1.0) -> bool | None:
    """Whether a job can hand over in an earlier half-day than that of a moment; None if the effort did not tell.

    True, too, where air begins with a step: only a plan tells then.
    """
    if job.switches:
        return True
    return sooner(build(Case(job, airs(job))), than, SOONER_EFFORT * effort)


def timed(job: Job, plan: Plan) -> Timed:
    """A job beside the times of its plan, for whoever asks what held its steps up."""
    settled = job.with_air_from({step.id: step.end for step in plan.steps})
    case = Case(settled, airs(settled))
    return Timed(case, build(case), Times({step.id: step.pieces for step in plan.steps}, plan.finish))


def airs(job: Job) -> dict[str, RoomAir]:
    """The air of every room, from the start of the job past the end of its calendars; rooms alike share theirs."""
    alike = {said: hourly_air(said, job.start - DAY, job.horizon + AIR_BEYOND) for said in {r.air for r in job.rooms}}
    return {room.name: alike[room.air] for room in job.rooms}


def _audited(case: Case, network: Network, answer: Answer, times: Times, assumed: tuple[str, ...]) -> Plan:
    released = tuple(booking for booking in case.job.bookings if booking.step in answer.released)
    if released:
        kept = tuple(booking for booking in case.job.bookings if booking not in released)
        case = Case(case.job.with_bookings(kept), case.airs)
    broken = audit(case.job, case.airs, times)
    if broken:
        raise BrokenPlan("\n".join(broken))
    plan = write(case, network, answer, times)
    given_up = sorted((GivenUp(b.trade, b.step, b.at, b.place) for b in released), key=lambda one: (one.at, one.step))
    return replace(plan, released=tuple(given_up), assumed=(*plan.assumed, *assumed))


def _sentences(job: Job, none: NoAnswer) -> tuple[str, ...]:
    steps = {step.id: step for step in job.steps}
    blocked = [steps[id] for id in none.blocked if id in steps]
    first = NO_ORDER if none.certain else "No order of work was found that fits."
    return (first, *(f"{step.title} ({step.id}) finds no place: {step.place}" for step in blocked))
