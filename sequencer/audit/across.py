"""Nobody whom several jobs share is needed on two sites at once, or comes to the next sooner than the way allows."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from sequencer.air.hourly import RoomAir
from sequencer.audit.audit import audit
from sequencer.audit.site import Times
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute


def audit_several(
    jobs: Sequence[Job], airs: Mapping[str, dict[str, RoomAir]], times: Mapping[str, Times]
) -> tuple[str, ...]:
    """The rules that the plans of several jobs break, each by itself and together; airs and times by job."""
    alone = [f"{job.name}: {said}" for job in jobs for said in audit(job, airs[job.name], times[job.name])]
    return (*alone, *broken(jobs, times)) if not alone else tuple(alone)


def counted_together(jobs: Sequence[Job], times: Mapping[str, Times]) -> tuple[int, int]:
    """Days late against promises and half-days of hand-over, added up over all jobs."""
    late = half_days = 0
    for job in jobs:
        over = times[job.name].hand_over
        half_days += sum(start <= over for start in job.half_days)
        if job.promise is not None:
            late += sum(job.promise <= midnight < over for midnight in job.half_days[::2])
    return late, half_days


@dataclass(frozen=True)
class _There:
    """Somebody at a step of a job. `behind`: it lies in the past, and what has happened breaks no rule any more."""

    job: str
    step: Step
    start: Minute
    end: Minute
    behind: bool

    def __str__(self) -> str:
        return f"{self.job}: {self.step.id}"

    def __lt__(self, other: _There) -> bool:
        return (self.start, str(self)) < (other.start, str(other))


def broken(jobs: Sequence[Job], times: Mapping[str, Times]) -> Iterator[str]:
    """People on too many sites at once, and ways that are too short."""
    for name in sorted(set().union(*(job.shared for job in jobs))):
        known = [j for j in jobs if name in j.shared and name in j.trades and j.trades[name].hour_known]
        hands = max((job.trades[name].hands for job in known), default=0)
        travel = max((job.trades[name].travel for job in known), default=0)
        there = sorted(_there(job, step, times) for job in known for step in job.steps if step.trade == name)
        at_once: list[_There] = []
        for at, together in groupby(there, lambda one: one.start):
            begun = list(together)
            at_once = [one for one in (*at_once, *begun) if at < one.end]
            if all(one.behind for one in at_once):
                continue
            if sum(one.step.hands for one in at_once) > hands and len({one.job for one in at_once}) > 1:
                for _ in begun:
                    yield f"{name} is needed at once for {', '.join(map(str, at_once))}"
        if travel:
            yield from _travel(name, travel, there)


def _travel(name: str, travel: int, there: Sequence[_There]) -> Iterator[str]:
    """Ways that are too short; who is there, by start."""
    for number, one in enumerate(there):
        for other in there[number + 1 : bisect_left(there, one.end + travel, key=lambda other: other.start)]:
            apart = one.job != other.job and (one.step.where is None or one.step.where != other.step.where)
            apart = apart and not (one.behind and other.behind)
            if apart and one.start < other.end + travel:
                yield f"{name} has no time to travel between {one} and {other}"


def _there(job: Job, step: Step, times: Mapping[str, Times]) -> _There:
    pieces = times[job.name].pieces[step.id]
    return _There(job.name, step, pieces[0][0], pieces[-1][1], step.id in (job.past or {}))
