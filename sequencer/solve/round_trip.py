"""Where orders, waits and windows alone leave a task no start: the tasks that push each other out of the calendar."""

from __future__ import annotations

from bisect import bisect_left
from collections import deque
from collections.abc import Collection
from dataclasses import replace

from sequencer.network.ahead import ahead
from sequencer.network.model import HAND_OVER, AllowedStarts, AtMost, CountedCost, Network, OneAtATime, Rule
from sequencer.solve.grid import lay
from sequencer.solve.trim import Trimmer


def pushed_out(network: Network) -> frozenset[str]:
    """The ids of these tasks, from the one that has no start left back along what pushed each; none if all have one."""
    problem = lay(ahead(network), network.horizon)
    without = frozenset(id for id, starts in zip(problem.ids, problem.starts, strict=True) if not len(starts))
    return without or frozenset(problem.ids[task] for task in _pushed(Trimmer(problem)))


def among(network: Network, tasks: Collection[str]) -> Network:
    """Some tasks of a network and hand-over, with the rules among them alone: where these do not fit, none do."""
    kept = {id: task for id, task in network.tasks.items() if id in tasks or id == HAND_OVER}
    rules = (_among(rule, kept) for rule in network.rules)
    return replace(network, tasks=kept, rules=tuple(rule for rule in rules if rule is not None), goals=(), ends=())


def _among(rule: Rule, tasks: Collection[str]) -> Rule | None:
    if isinstance(rule, AllowedStarts | CountedCost):
        return rule if rule.task in tasks else None
    if isinstance(rule, OneAtATime | AtMost):
        claims = tuple(claim for claim in rule.claims if claim.task in tasks and claim.closes_with in tasks)
        return replace(rule, claims=claims) if len(claims) > 1 else None
    return rule if rule.before in tasks and rule.after in tasks else None


def _pushed(trimmer: Trimmer) -> set[int]:
    """First starts pushed later, each by the last that did, until one has no place left; the tasks behind that."""
    starts, first = trimmer.starts, [0] * len(trimmer.starts)
    by: dict[int, int] = {}
    todo, queued = deque(trimmer.order), set(trimmer.order)
    while todo:
        task = todo.popleft()
        queued.discard(task)
        for window, other, moments in trimmer.forward[task]:
            bounds, least = (moments, starts[task][first[task]]) if window else (starts[other], moments[first[task]])
            soonest = bisect_left(bounds, least, first[other])
            if soonest > first[other]:
                by[other] = task
                if soonest >= len(starts[other]):
                    return _back(by, other)
                first[other] = soonest
                if other not in queued:
                    todo.append(other)
                    queued.add(other)
    return set()


def _back(by: dict[int, int], task: int) -> set[int]:
    found = {task}
    while task in by and by[task] not in found:
        task = by[task]
        found.add(task)
    return found
