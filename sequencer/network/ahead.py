"""The network of what is still to be done, bound by what lies behind.

Nothing is asked of two steps that both lie behind: what has happened cannot break a rule any more.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from sequencer.network.counted import Counted, CountedGoal, Moved, Reached
from sequencer.network.hours import Openings, WorkClock
from sequencer.network.model import (
    AllowedStarts,
    AtMost,
    Claim,
    CountedCost,
    MinuteFunction,
    Minutes,
    Network,
    OneAtATime,
    Order,
    Rule,
    StartTest,
    Task,
    WaitFor,
    Why,
    Window,
)
from sequencer.network.recorded import RecordedClock
from sequencer.network.rules.notice import not_before
from sequencer.terms.minute import Minute

NOW_WIDTH = 15
"""The first start of every grid lies this near to now [min]."""


class _Busy(WorkClock):
    """The rest of a step under way, as a task that begins now, to be counted among the hands."""

    def __init__(self, openings: Openings, now: Minute, end: Minute) -> None:
        super().__init__(openings, 0)
        self.now, self.end = now, end

    @property
    def alike(self) -> tuple[Hashable, ...]:
        return self.now, self.end

    def allowed(self, starts: NDArray[np.int64]) -> NDArray[np.bool_]:
        return np.asarray((starts >= self.now) & (starts < self.now + NOW_WIDTH))

    def ends(self, starts: NDArray[np.int64]) -> NDArray[np.int64]:
        return np.full(len(starts), self.end, dtype=np.int64)


def ahead(network: Network) -> Network:
    """The network of what is still to be done, every rule on a step that lies behind said of the others alone."""
    behind = {id: task.work for id, task in network.tasks.items() if isinstance(task.work, RecordedClock)}
    if not behind:
        return network
    counted = {c.task for rule in network.of(AtMost) for c in rule.claims if c.task in behind}
    busy = {id for id in counted if behind[id].end > network.start}
    tasks = {id: task for id, task in network.tasks.items() if id not in behind}
    tasks |= {id: Task(id, _Busy(behind[id].openings, network.start, behind[id].end)) for id in sorted(busy)}
    cut = _Cut(network, behind, busy)
    rules = tuple(new for rule in network.rules for new in cut.said_ahead(rule))
    goals = (replace(goal, costs=tuple(_costs_ahead(goal, behind))) for goal in network.goals)
    return replace(network, tasks=tasks, rules=rules, goals=tuple(goal for goal in goals if goal.costs))


def _costs_ahead(goal: CountedGoal, behind: dict[str, RecordedClock]) -> Iterator[Counted]:
    """What a goal counts of the tasks that are left."""
    for cost in goal.costs:
        if isinstance(cost, Moved):
            starts = tuple(start for start in cost.starts if start[0] not in behind)
            yield from [replace(cost, starts=starts)] if starts else []
        elif isinstance(cost, Reached):
            ready = tuple(ready for ready in cost.ready if ready[0] not in behind)
            yield from [replace(cost, ready=ready)] if ready else []
        else:
            tasks = tuple(task for task in cost.tasks if task not in behind)
            over = tuple((behind[task].begin, behind[task].end) for task in cost.tasks if task in behind)
            yield from [replace(cost, tasks=tasks, behind=over)] if tasks else []


class _Cut:
    def __init__(self, network: Network, behind: dict[str, RecordedClock], busy: set[str]) -> None:
        self.network, self.behind, self.busy = network, behind, busy

    def said_ahead(self, rule: Rule) -> Iterator[Rule]:
        """What a rule says of the tasks that are left."""
        if isinstance(rule, AllowedStarts | CountedCost):
            yield from () if rule.task in self.behind else (rule,)
        elif isinstance(rule, OneAtATime):
            yield from self._one_at_a_time(rule)
        elif isinstance(rule, AtMost):
            yield from self._at_most(rule)
        elif rule.after not in self.behind:
            yield self._since(rule) if rule.before in self.behind else rule

    def _since(self, rule: Order | WaitFor | Window) -> Rule:
        end = self.behind[rule.before].end
        if isinstance(rule, Window):
            latest = _at(rule.latest, end)
            return AllowedStarts(rule.after, _until(latest) if self.can_start(rule.after, latest) else _any, rule.why)
        ready = end if isinstance(rule, Order) else _at(rule.ready, end)
        return AllowedStarts(rule.after, not_before(ready), rule.why)

    def can_start(self, task: str, latest: Minute) -> bool:
        """True if there is an hour left in which a task could start by a moment: else it is too late already."""
        moments = np.arange(self.network.start, latest + 1, dtype=np.int64)
        return bool(self.network.tasks[task].work.allowed(moments).any())

    def _one_at_a_time(self, rule: OneAtATime) -> Iterator[Rule]:
        left = [self._closed_already(claim) for claim in rule.claims if claim.task not in self.behind]
        if len(left) > 1:
            yield replace(rule, claims=tuple(left))
            work = [replace(claim, last=None) if self._may_end_first(claim) else claim for claim in left]
            yield from [replace(rule, claims=tuple(work))] if work != left else []
        for claim in rule.claims:
            if claim.task in self.behind:
                yield from (self._after(claim, other.task, rule.why) for other in left if other.task != claim.last)

    def _after(self, claim: Claim, other: str, why: Why) -> Rule:
        """Another task comes when a claim of the past is over."""
        closes = self.behind.get(claim.closes_with)
        if closes is not None:
            return AllowedStarts(other, not_before(_at(claim.until, closes.end) if claim.until else closes.end), why)
        if claim.until is None:
            return Order(claim.closes_with, other, why)
        return WaitFor(claim.closes_with, other, claim.until, why)

    def _closed_already(self, claim: Claim) -> Claim:
        return replace(claim, last=None, until=None) if claim.last in self.behind else claim

    def _may_end_first(self, claim: Claim) -> bool:
        """True if a claim's last task may come before its first, for what led from one to the other lies behind."""
        return claim.last is not None and claim.last not in self._follow(claim.task)

    def _follow(self, task: str) -> set[str]:
        """The tasks that come after the end of a task by orders and waits, none of them through the past."""
        found, todo = {task}, [task]
        while todo:
            todo += (new := self._next.get(todo.pop(), set()) - found)
            found |= new
        return found

    @cached_property
    def _next(self) -> dict[str, set[str]]:
        found: dict[str, set[str]] = {}
        rules: list[Order | WaitFor] = [*self.network.of(Order), *self.network.of(WaitFor)]
        for rule in rules:
            if rule.before not in self.behind and rule.after not in self.behind:
                found.setdefault(rule.before, set()).add(rule.after)
        return found

    def _at_most(self, rule: AtMost) -> Iterator[Rule]:
        """Who is still at work takes no more than there is: longest first, for all of it began before now."""
        room, taken = rule.n, []
        over = [claim for claim in rule.claims if claim.task in self.busy]
        for claim in sorted(over, key=lambda one: (-self.behind[one.task].end, one.task)):
            if room:
                taken.append(replace(claim, amount=min(claim.amount, room)))
                room -= taken[-1].amount
        left = [claim for claim in rule.claims if claim.task not in self.behind]
        if left and len(taken) + len(left) > 1:
            yield replace(rule, claims=(*left, *taken))


def _at(function: MinuteFunction, moment: Minute) -> Minute:
    return int(function(np.array([moment], dtype=np.int64))[0])


def _until(latest: Minute) -> StartTest:
    def allowed(starts: Minutes, ends: Minutes) -> NDArray[np.bool_]:
        return np.asarray(starts <= latest)

    return allowed


def _any(starts: Minutes, ends: Minutes) -> NDArray[np.bool_]:
    return np.ones(len(starts), dtype=np.bool_)
