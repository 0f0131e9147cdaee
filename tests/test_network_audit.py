"""Network and audit, written apart, say the same of any plan: of the shortest, and of those a few steps from it."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import pytest
from brute_force import BEFORE, GRID, cut_after
from random_jobs import RandomJob

from sequencer.audit import audit
from sequencer.files import read_job
from sequencer.network.build import build
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
from sequencer.planning import airs
from sequencer.solve import solve
from sequencer.solve.answer import Answer
from sequencer.terms.minute import Minute
from sequencer.writeup import times_of

SEEDS = (
    2, 5, 9, 12, 13, 14, 18, 19, 21, 24, 25, 26, 30, 32, 35, 36, 40, 42, 46, 48, 49, 52, 57, 60,
    1012, 1013, 1026, 1036, 1059, 1077, 1082, 1084, 1091, 1107, 1112, 1121, 1128, 1145, 1146,
)  # fmt: skip
"""Seeds of random jobs with a plan."""

PLANS = 40
"""Plans looked at in each of them."""


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


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[str, bool, tuple[str, ...]]]:
    """Of every plan: which one, whether it keeps the network, and what the audit says."""
    found = []
    for seed in SEEDS:
        folder: Path = tmp_path_factory.mktemp("job")
        RandomJob(seed).write(folder)
        job = cut_after(read_job(folder, BEFORE), RandomJob(seed).days)
        case = Case(job, airs(job))
        network, random = build(case), Random(seed)
        plan = solve(network, effort=0.05).starts
        for number in range(PLANS):
            starts = shaken(network, plan, random) if number else plan
            times = times_of(network, Answer(starts, (), 0, {}))
            found.append((f"{seed}/{number}", Walk(network, starts).keeps, audit(job, case.airs, times)))
    return found


def test_what_keeps_every_rule_of_the_network_passes_the_audit_and_nothing_else_does(
    outcomes: list[tuple[str, bool, tuple[str, ...]]],
) -> None:
    assert [(plan, said) for plan, keeps, said in outcomes if keeps and said] == []
    assert [plan for plan, keeps, said in outcomes if not keeps and not said] == []


def test_many_plans_of_either_kind_were_looked_at(outcomes: list[tuple[str, bool, tuple[str, ...]]]) -> None:
    kinds = Counter(keeps for _, keeps, _ in outcomes)
    assert kinds[True] > 100
    assert kinds[False] > 400
