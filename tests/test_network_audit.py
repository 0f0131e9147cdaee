"""Network and audit, written apart, say the same of any plan: of the shortest, and of those a few steps from it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from random import Random

import pytest
from drawn_jobs import drawn_job
from network_walk import Judged, differing, judged, shaken

from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import airs
from sequencer.solve import solve

SEEDS = (
    2, 5, 9, 12, 13, 14, 18, 19, 21, 24, 25, 26, 30, 32, 35, 36, 40, 42, 46, 48, 49, 52, 57, 60,
    1012, 1013, 1026, 1036, 1059, 1077, 1082, 1084, 1091, 1107, 1112, 1121, 1128, 1145, 1146,
)  # fmt: skip
"""Seeds of random jobs with a plan."""

PLANS = 40
"""Plans looked at in each of them."""


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory: pytest.TempPathFactory) -> list[Judged]:
    """What network and audit say of every plan."""
    found = []
    for seed in SEEDS:
        folder: Path = tmp_path_factory.mktemp("job")
        job = drawn_job(seed, folder)
        case = Case(job, airs(job))
        network, random = build(case), Random(seed)
        plan = solve(network, effort=0.05).starts
        for number in range(PLANS):
            starts = shaken(network, plan, random) if number else plan
            found.append(judged(f"{seed}/{number}", case, network, network, starts))
    return found


def test_what_keeps_every_rule_of_the_network_passes_the_audit_and_nothing_else_does(outcomes: list[Judged]) -> None:
    assert differing(outcomes) == []


def test_many_plans_of_either_kind_were_looked_at(outcomes: list[Judged]) -> None:
    kinds = Counter(each.keeps for each in outcomes)
    assert kinds[True] > 100
    assert kinds[False] > 400
