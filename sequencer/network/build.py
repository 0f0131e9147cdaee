"""Builds the network of a job: its tasks, and what every rule of the trade emits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection

from sequencer.network.by_clock import ByClock
from sequencer.network.case import Case
from sequencer.network.goals import goals
from sequencer.network.in_air import by_room, in_air
from sequencer.network.model import HAND_OVER, Claim, Network, OneAtATime, Order, Rule, WaitFor
from sequencer.network.rules import (
    air,
    bookings,
    changing_air,
    cushion,
    decisions,
    deliveries,
    disturbances,
    fumes,
    hand_over,
    house,
    lift,
    look_in,
    notice,
    order,
    shortest_visit,
    soonest,
    standing,
    surfaces,
    taken_back,
    toilet,
    trades,
    within,
)
from sequencer.network.taken import taken_by
from sequencer.network.tasks import tasks

RULES = (
    order,
    within,
    taken_back,
    surfaces,
    standing,
    disturbances,
    fumes,
    trades,
    cushion,
    notice,
    bookings,
    shortest_visit,
    air,
    changing_air,
    decisions,
    deliveries,
    house,
    lift,
    toilet,
    look_in,
    hand_over,
    soonest,
)
"""Every rule of the trade."""


def build(case: Case) -> Network:
    """The network of a job in its air, built once; all but the air's own rule is emitted once for all airs."""
    return case.here(_built)


def _built(case: Case) -> Network:
    job = case.job
    for function in case.once(_said_by_clocks):
        case.made_by_clock(function)
    rules = (rule for said in case.once(_said) for rule in (air.rules(case) if said is None else said))
    start = max(job.start, job.now)
    said = in_air(rules, case)
    return Network(
        case.once(tasks),
        said,
        job.half_days,
        start,
        job.horizon,
        goals=goals(case),
        visits_stand=job.visits_stand,
        known=case.ground.of_networks,
    )


def _said(case: Case) -> list[list[Rule] | None]:
    """What every rule of the trade says in any air; None: it has to be asked in each air anew."""
    job = case.job
    emitted = [None if module is air else list(module.rules(case)) for module in RULES]
    all_of_them = [rule for rules in emitted for rule in rules or ()]
    after = _successors([*(step.id for step in job.steps), HAND_OVER], all_of_them, job.past or {})
    titles = {step.id: step.title for step in job.steps}
    return [None if rules is None else _kept(rules, after, titles) for rules in emitted]


def _said_by_clocks(case: Case) -> list[ByClock]:
    return by_room((rule for rules in case.once(_said) for rule in rules or ()), case)


def _kept(rules: list[Rule], after: dict[str, set[str]], titles: dict[str, str]) -> list[Rule]:
    settled = [rule for each in rules for rule in _settled(each, after, titles)]
    return [rule for rule in settled if not _said_already(rule, after)]


def _settled(rule: Rule, after: dict[str, set[str]], titles: dict[str, str]) -> list[Rule]:
    """A pair whose order is settled by others becomes a wait; a group of one says nothing."""
    if not isinstance(rule, OneAtATime) or len(rule.claims) > 2:
        return [rule]
    if len(rule.claims) < 2:
        return []
    one, other = rule.claims
    if other.task in after[one.task]:
        return [_before(one, other, rule, titles)]
    if one.task in after[other.task]:
        return [_before(other, one, rule, titles)]
    return [rule]


def _said_already(rule: Rule, after: dict[str, set[str]]) -> bool:
    """True for an order that others say by a longer way."""
    return isinstance(rule, Order) and any(
        rule.after in after[other] for other in after[rule.before] if other != rule.after
    )


def _before(first: Claim, second: Claim, rule: OneAtATime, titles: dict[str, str]) -> Rule:
    closed = first.until is not None or first.last is not None
    why = taken_by(rule.why, first, titles[first.task], closed)
    if first.until is None:
        return Order(first.closes_with, second.task, why)
    return WaitFor(first.closes_with, second.task, first.until, why)


def _successors(ids: list[str], rules: list[Rule], past: Collection[str]) -> dict[str, set[str]]:
    """For every task the ids of all that come after its end by orders and waits, none of them through the past: what
    lies behind may have been done though what it should have waited for is not."""
    follows: dict[str, set[str]] = {id: set() for id in ids}
    for rule in rules:
        if isinstance(rule, Order | WaitFor) and rule.before not in past and rule.after not in past:
            follows[rule.before].add(rule.after)
    left = Counter(other for others in follows.values() for other in others)
    order = [id for id in ids if not left[id]]
    for id in order:
        for other in follows[id]:
            left[other] -= 1
            if not left[other]:
                order.append(other)
    found = {id: set(others) for id, others in follows.items()}
    for id in reversed(order):
        found[id].update(*(found[other] for other in follows[id]))
    return found
