"""With a past, too, network and audit, written apart, say the same of any plan of what is still to be done."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from drawn_jobs import drawn_job
from facts_told import agreed, fact
from network_walk import Judged, differing, judged, shaken

from sequencer.network.ahead import ahead
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import Network
from sequencer.plan import Plan
from sequencer.planning import airs, plan_of, settled
from sequencer.solve import NoAnswer, solve
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.with_facts import with_facts

SEEDS = (2, 9, 13, 18, 21, 25, 42, 57, 1016, 1062)
"""Seeds of random jobs with a plan, steps under way, holds that failed and windows from the past among them."""

QUARTER = 15
PLANS = 25
"""Plans looked at in each of them."""


def told_of(job: Job, plan: Plan, random: Random) -> list[Fact]:
    """Facts of the first steps of a plan: on time, late, early, begun, failed; some jobs are asked for beforehand."""
    facts = agreed(job, job.now) if random.random() < 0.5 else []
    steps = sorted(plan.steps, key=lambda step: step.end)
    for step in steps[: random.randrange(1, max(2, len(steps) - 1))]:
        shift = random.choice((0, 0, 30, 60, -30, 300))
        hold = job.step(step.id).kind == "hold"
        ended = "passed" if hold and random.random() < 0.8 else "failed" if hold else "done"
        kind, at = ("began", step.start) if random.random() < 0.25 else (ended, step.end)
        facts.append(fact(len(facts) + 1, kind, step.id, at + shift))
    return facts


def _movable(left: Network, job: Job) -> Network:
    """The tasks that can be given another start, from the first quarter of an hour on."""
    tasks = {id: task for id, task in left.tasks.items() if id not in (job.past or {})}
    return replace(left, tasks=tasks, start=-(-left.start // QUARTER) * QUARTER)


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory: pytest.TempPathFactory) -> list[Judged]:
    """Of every plan: which one, whether it keeps the network of what is ahead, and what the audit says."""
    found = []
    for seed in SEEDS:
        folder: Path = tmp_path_factory.mktemp("job")
        bare = drawn_job(seed, folder)
        random = Random(seed)
        job = settled(with_facts(bare, told_of(bare, plan_of(bare, 0.1), random)), 0.1)
        case = Case(job, airs(job))
        network = build(case)
        left = ahead(network)
        try:
            plan = solve(network, effort=0.05)
        except NoAnswer:
            continue
        movable = _movable(left, job)
        for number in range(PLANS if len(movable.tasks) > 2 else 1):
            starts = shaken(movable, plan.starts, random) if number else plan.starts
            found.append(judged(f"{seed}/{number}", case, network, left, starts))
    return found


def test_with_a_past_too_the_network_and_the_audit_say_the_same(outcomes: list[Judged]) -> None:
    assert differing(outcomes) == []


def test_plans_of_both_kinds_are_looked_at(outcomes: list[Judged]) -> None:
    kept = sum(each.keeps for each in outcomes)
    assert len({each.name.partition("/")[0] for each in outcomes}) >= 6
    assert 15 <= kept <= len(outcomes) - 60
