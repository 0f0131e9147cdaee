"""The tasks at fault where orders, waits and windows leave one no start, or two no way to follow a third in time."""

from __future__ import annotations

from bisect import bisect_left
from collections import deque
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from sequencer.network.ahead import ahead
from sequencer.network.model import HAND_OVER, AllowedStarts, AtMost, CountedCost, Network, OneAtATime, Rule
from sequencer.solve.both_in_time import never_both
from sequencer.solve.grid import lay
from sequencer.solve.trim import Trimmer


def pushed_out(network: Network) -> frozenset[str]:
    """The ids of these tasks, from the one that has no start left back along what pushed each; none if all have one."""
    problem = lay(ahead(network), network.horizon)
    without = frozenset(id for id, starts in zip(problem.ids, problem.starts, strict=True) if not len(starts))
    if without:
        return without
    return frozenset(problem.ids[task] for task in _pushed(Trimmer(problem)) or never_both(problem) or ())


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


@dataclass(frozen=True)
class _Push:
    """A task whose first start was pushed later, by the push of another, or by nothing but its own hours (None)."""

    task: int
    by: _Push | None


def _pushed(trimmer: Trimmer) -> set[int]:
    """First starts pushed later until a task has no place left; the tasks behind that, push by push."""
    starts, first = trimmer.starts, [0] * len(trimmer.starts)
    last = [_Push(task, None) for task in range(len(starts))]
    todo, queued = deque(trimmer.order), set(trimmer.order)
    while todo:
        task = todo.popleft()
        queued.discard(task)
        for window, other, moments in trimmer.forward[task]:
            bounds, least = (moments, starts[task][first[task]]) if window else (starts[other], moments[first[task]])
            soonest = bisect_left(bounds, least, first[other])
            if soonest > first[other]:
                last[other] = _Push(other, last[task])
                if soonest >= len(starts[other]):
                    return set(_behind(last[other]))
                first[other] = soonest
                if other not in queued:
                    todo.append(other)
                    queued.add(other)
    return set()


def _behind(push: _Push | None) -> Iterator[int]:
    while push is not None:
        yield push.task
        push = push.by
