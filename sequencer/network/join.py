"""The networks of several jobs as one, with the people they share; each keeps its own hours, house and hand-over."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import fields, replace
from functools import partial
from typing import Any

from sequencer.network.across import Crew, across, crews, in_job, own_id
from sequencer.network.counted import Counted, CountedGoal
from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    CountedCost,
    End,
    Network,
    Order,
    Rule,
    StartTest,
    Task,
    Why,
)
from sequencer.network.rules.notice import not_before
from sequencer.network.rules.soonest import weight
from sequencer.terms.cause import Cause
from sequencer.terms.job import Job, Workday
from sequencer.terms.minute import Span

IDS = ("task", "before", "after", "last", "booking")
"""Fields of rules and claims that hold the id of a task."""


def joined(jobs: Sequence[Job], networks: Mapping[str, Network]) -> Network:
    """One network of several, by the jobs' names. Its own hand-over comes when all are handed over."""
    shared = crews(jobs)
    tasks, rules, ends = {}, [rule for crew in shared for rule in across(crew)], []
    start = min(network.start for network in networks.values())
    for job in jobs:
        network, last = networks[job.name], in_job(job.name, HAND_OVER)
        tasks.update({id: Task(id, task.work) for id, task in _named(network, job.name)})
        rules += [_renamed(rule, job.name) for rule in network.rules if not _said_across(rule, job, shared)]
        rules += _begins(job, network, start)
        rules.append(Order(last, HAND_OVER, Why("people", f"{job.title} is handed over")))
        ends.append(End(last, job.half_days, job.promise))
    tasks[HAND_OVER] = Task(HAND_OVER, WorkClock(Openings(tuple(Workday((span,)) for span in _hand_overs(jobs))), 0))
    half_days = sorted({moment for job in jobs for moment in job.half_days})
    horizon = max(network.horizon for network in networks.values())
    stand = any(job.visits_stand for job in jobs)
    return Network(tasks, tuple(rules), tuple(half_days), start, horizon, tuple(ends), _goals(networks), stand)


def _goals(networks: Mapping[str, Network]) -> tuple[CountedGoal, ...]:
    """The goals behind hand-over, each counted for all jobs together, in the order of the first job that has it."""
    costs: dict[str, list[Counted]] = {}
    for job, network in networks.items():
        for goal in network.goals:
            costs.setdefault(goal.name, []).extend(cost.named(partial(in_job, job)) for cost in goal.costs)
    return tuple(CountedGoal(name, tuple(counted)) for name, counted in costs.items())


def _named(network: Network, job: str) -> Iterator[tuple[str, Task]]:
    return ((in_job(job, id), task) for id, task in network.tasks.items())


def _renamed(rule: Rule, job: str) -> Rule:
    """The rule on the same tasks, under their names among those of all jobs."""
    changed = _with_names(rule, job)
    return replace(changed, weight=weight(changed.task)) if isinstance(changed, CountedCost) else changed


def _with_names(one: Any, job: str) -> Any:
    changes: dict[str, Any] = {}
    for name in (field.name for field in fields(one)):
        value = getattr(one, name)
        if name in IDS and value is not None:
            changes[name] = in_job(job, value)
        elif name == "claims":
            changes[name] = tuple(_with_names(claim, job) for claim in value)
        elif name == "without" and value is not None:
            changes[name] = partial(_without, value, job)
    return replace(one, **changes)


def _without(allowed: Callable[[Collection[str]], StartTest], job: str, given_up: Collection[str]) -> StartTest:
    """What a rule of a job allows when the firm visits of some steps of all jobs are given up."""
    return allowed(tuple(own for name, own in map(own_id, given_up) if name == job))


def _said_across(rule: Rule, job: Job, shared: Sequence[Crew]) -> bool:
    """True for the hands of a person that the group of all jobs counts as well."""
    cause = None if isinstance(rule, CountedCost) else rule.why.cause
    return cause is not None and any(
        cause == Cause("hands", crew.name) and crew.hands == job.trades[crew.name].hands for crew in shared
    )


def _begins(job: Job, network: Network, start: int) -> Iterator[Rule]:
    """No task of a job before the job begins, where another begins sooner."""
    if network.start > start:
        why = Why("start", f"{job.title} starts")
        yield from (AllowedStarts(in_job(job.name, id), not_before(network.start), why) for id in network.tasks)


def _hand_overs(jobs: Sequence[Job]) -> list[Span]:
    """The hours in which any of the jobs can be handed over, as spans that do not meet."""
    found: list[Span] = []
    for start, end in sorted(s for job in jobs for day in job.trades[job.hand_over_trade].days for s in day.spans):
        if found and start <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        else:
            found.append((start, end))
    return found
