"""The part of a network that leads up to one task."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sequencer.network.model import HAND_OVER, AllowedStarts, CountedCost, Network, Order, Rule, WaitFor, Why, Window


def leading_to(network: Network, id: str) -> Network:
    """A task and all that comes before it by orders and waits, handed over when the task is done.

    What the rest asks of these is left out, so the part may be done sooner than the whole allows, never later.
    """
    kept = _before(network, id) | {id, HAND_OVER}
    rules = [cut for rule in network.rules for cut in _cut(rule, kept)]
    rules.append(Order(id, HAND_OVER, Why("people", "done")))
    tasks = {name: task for name, task in network.tasks.items() if name in kept}
    return replace(network, tasks=tasks, rules=tuple(rules), goals=())


def _before(network: Network, id: str) -> set[str]:
    follows: dict[str, set[str]] = {}
    rules: list[Order | WaitFor] = [*network.of(Order), *network.of(WaitFor)]
    for rule in rules:
        follows.setdefault(rule.after, set()).add(rule.before)
    found, open_ = set[str](), [id]
    while open_:
        new = follows.get(open_.pop(), set()) - found
        found |= new
        open_ += new
    return found


def _cut(rule: Rule, kept: set[str]) -> Iterator[Rule]:
    if isinstance(rule, AllowedStarts | CountedCost):
        yield from (rule,) if rule.task in kept else ()
    elif isinstance(rule, Order | WaitFor | Window):
        yield from (rule,) if {rule.before, rule.after} <= kept - {HAND_OVER} else ()
    else:
        claims = tuple(claim for claim in rule.claims if {claim.task, claim.closes_with} <= kept - {HAND_OVER})
        if len(claims) > 1:
            yield replace(rule, claims=claims)
