"""A network held against starts rule by rule, and what it says of them set against what the audit says."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from random import Random
from typing import Any

import numpy as np
from brute_force import GRID

from sequencer.audit import audit
from sequencer.network.case import Case
from sequencer.network.model import (
    AllowedStarts,
    AtMost,
    Claim,
    CountedCost,
    Network,
    OneAtATime,
    Order,
    Rule,
    WaitFor,
    Window,
)
from sequencer.solve.answer import Answer
from sequencer.terms.minute import Minute
from sequencer.writeup import times_of


class Walk:
    """A network held against starts, rule by rule and minute by minute."""

    def __init__(self, network: Network, starts: dict[str, Minute]) -> None:
        self.starts = starts
        self.ends = {id: _at(task.work.ends, starts[id]) for id, task in network.tasks.items()}
        in_hours = all(_at(task.work.allowed, starts[id]) for id, task in network.tasks.items())
        self.keeps = in_hours and all(self._keeps(rule) for rule in network.rules)

    def _keeps(self, rule: Rule) -> bool:
        starts, ends = self.starts, self.ends
        if isinstance(rule, AllowedStarts):
            return bool(_at(rule.allowed, starts[rule.task], ends[rule.task]))
        if isinstance(rule, Order):
            return starts[rule.after] >= ends[rule.before]
        if isinstance(rule, WaitFor):
            return starts[rule.after] >= _at(rule.ready, ends[rule.before])
        if isinstance(rule, Window):
            return starts[rule.after] <= _at(rule.latest, ends[rule.before])
        if isinstance(rule, OneAtATime):
            spans = [(starts[claim.task], self._until(claim)) for claim in rule.claims]
            return not any(a < d and c < b for (a, b), (c, d) in combinations(spans, 2))
        if isinstance(rule, AtMost):
            held = [(starts[claim.task], self._until(claim), claim.amount) for claim in rule.claims]
            return all(sum(n for a, b, n in held if a <= at < b) <= rule.n for at, _, _ in held)
        return isinstance(rule, CountedCost)

    def _until(self, claim: Claim) -> Minute:
        end = self.ends[claim.closes_with]
        return end if claim.until is None else _at(claim.until, end)


def _at(function: Any, *minutes: Minute) -> int:
    return int(function(*(np.array([minute], dtype=np.int64) for minute in minutes))[0])


def shaken(network: Network, starts: dict[str, Minute], random: Random) -> dict[str, Minute]:
    """The starts with one to three of them moved, mostly a little, to where the hours alone allow them."""
    moved = dict(starts)
    grid = np.arange(network.start, network.horizon, GRID, dtype=np.int64)
    for id in random.sample(list(network.tasks), random.choice((1, 1, 2, 3))):
        open_starts = grid[network.tasks[id].work.allowed(grid)].tolist()
        near = sorted(open_starts, key=lambda at: abs(at - starts[id]))[:12]
        moved[id] = random.choice(near if random.random() < 0.7 else open_starts)
    return moved


@dataclass(frozen=True)
class Judged:
    """Starts, by the name they are told with: whether they keep the network, and what the audit says of them."""

    name: str
    keeps: bool
    said: tuple[str, ...]


def judged(name: str, case: Case, whole: Network, left: Network, starts: dict[str, Minute]) -> Judged:
    """What both say of starts: the network of what is left to do, the audit from the times of the whole."""
    times = times_of(whole, Answer(starts, (), 0, {}))
    return Judged(name, Walk(left, starts).keeps, audit(case.job, case.airs, times))


def differing(outcomes: list[Judged]) -> list[Judged]:
    """Those of which network and audit say different things."""
    return [each for each in outcomes if each.keeps == bool(each.said)]
