"""People that several jobs share: no more steps at once, on all sites, than they have hands; and time to travel.

Who says a time to travel goes together: never in two places at once, however many hands.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from sequencer.network.later import later
from sequencer.network.model import AtMost, Claim, OneAtATime, Rule, Why
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Step
from sequencer.terms.place import Place
from sequencer.terms.words import on_the_way, time_of


def in_job(job: str, id: str) -> str:
    """The id of a task of one job among the tasks of all."""
    return f"{job}//{id}"


def own_id(id: str) -> tuple[str, str]:
    """The job of a task among those of all, and its id there; no job for the hand-over of all."""
    job, _, own = id.rpartition("//")
    return job, own


@dataclass(frozen=True)
class Crew:
    """A person that several jobs share: the steps by job, as many `hands` and as long a `travel` [min] as any says."""

    name: str
    steps: tuple[tuple[str, Step], ...]
    hands: int
    travel: int
    place: Place


def crews(jobs: Sequence[Job]) -> list[Crew]:
    """The people with steps in more than one job, by name; who comes at an unknown hour sees all in one visit."""
    found = []
    for name in sorted({name for job in jobs for name in job.shared}):
        there = [job for job in jobs if name in job.shared and name in job.trades and job.trades[name].hour_known]
        steps = [(job.name, step) for job in there for step in job.steps if step.trade == name]
        if len({job for job, _ in steps}) > 1:
            trades = [job.trades[name] for job in there]
            hands, travel = max(trade.hands for trade in trades), max(trade.travel for trade in trades)
            found.append(Crew(name, tuple(steps), hands, travel, trades[0].place))
    return found


def across(crew: Crew) -> Iterator[Rule]:
    """A group for the hands of a person, and a pair of claims for every two steps with a way between."""
    why = Why("people", time_of(crew.name), crew.place, None, Cause("elsewhere", crew.name))
    if crew.hands == 1:
        yield OneAtATime(tuple(Claim(in_job(job, step.id)) for job, step in crew.steps), why)
    else:
        yield AtMost(crew.hands, tuple(Claim(in_job(job, s.id), amount=s.hands) for job, s in crew.steps), why)
    for (job, one), (other_job, other) in combinations(crew.steps, 2) if crew.travel else ():
        if job != other_job and (one.where is None or one.where != other.where):
            way = later(crew.travel)
            pair = (Claim(in_job(job, one.id), way), Claim(in_job(other_job, other.id), way))
            yield OneAtATime(pair, Why("people", on_the_way(crew.name), crew.place, None, why.cause))
