"""Tiny jobs with firm visits that a cushion keeps behind your work, drawn at random, against trying every start."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations
from random import Random

from brute_force import shortest
from planned_jobs import whole
from tiny_jobs import booking, job, step, trade

from sequencer.planning import NoOrderFits, plan_of
from sequencer.terms.arranged import Booking
from sequencer.terms.job import Job

DAYS = "Mon Tue Wed Thu"
HALF_HOURS = (30, 60, 90)


def booked_job(seed: int) -> Job:
    """You, and a plumber with up to two firm visits; the same seed draws the same."""
    random = Random(seed)
    plumber = trade(
        "plumber", random.choice(("8-10", "8-9, 10-11")), DAYS, weeks=1, cushion=random.choice((30, 60, 90, 120)),
        shortest_visit=random.choice((0, 45, 60)), hands=random.choice((1, 2)),
    )  # fmt: skip
    steps = (
        step("a", random.choice((*HALF_HOURS, 120))),
        step("b", random.choice((30, 60, 75)), by="plumber", after="a"),
        step("hall/u/c", random.choice((30, 60)), by=random.choice(("you", "plumber")), after=random.choice(("", "a"))),
        step("d", random.choice(HALF_HOURS), by="plumber", after=random.choice(("b", "hall/u/c"))),
    )
    visits = [
        booking(name, f"{random.choice(('Mon', 'Tue', 'Wed'))} {random.choice(('8', '8:30', '9', '9:30'))}", "plumber")
        for name in "bd"
        if random.random() < 0.7
    ]
    you = trade("you", "8-10", DAYS, weeks=1)
    return whole(job(*steps, trades=(plumber, you), bookings=tuple(visits), weeks=1))


def faults(of: Job) -> list[str]:
    """What trying every start says against the plan of such a job: nothing, if it is the best there is."""
    try:
        plan = plan_of(of, 0.5)
    except NoOrderFits:
        return [] if _half_day(of, (), ()) is None else ["there is a plan"]
    gone = {one.step for one in plan.released}
    visits = tuple(visit for visit in of.bookings if visit.step not in gone)
    used = plan.cushions_used
    said = []
    if plan.goals[0].value != _half_day(of, visits, used):
        said.append("hand-over is another")
    fuller = combinations(of.bookings, len(visits) + 1)
    if any(_half_day(of, more, (visit.step for visit in more)) for more in fuller):
        said.append("one more firm visit can be kept")
    if any(_half_day(of, visits, less) for number in range(len(used)) for less in combinations(used, number)):
        said.append("fewer cushions need to be used up")
    return said


def _half_day(of: Job, visits: tuple[Booking, ...], used: Iterable[str]) -> int | None:
    return shortest(replace(of.with_bookings(visits), cushion_used=frozenset(used)))
