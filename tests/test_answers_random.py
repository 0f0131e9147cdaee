"""Savings and collisions on random jobs written as files, against plans made afresh."""

from __future__ import annotations

from pathlib import Path

import pytest
from drawn_jobs import drawn_job

from sequencer.answers.why import why
from sequencer.causes.listed import causes_of
from sequencer.causes.no_order import colliding, no_order_fits
from sequencer.causes.without import without
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import NoOrderFits, airs, plan_of
from sequencer.solve import fits
from sequencer.terms.job import Job
from sequencer.terms.place import Faulty

SEEDS = range(40)


def drawn(seed: int, folder: Path) -> Job:
    """The random job of a seed; files that are faulty are no job, and the next seed of this row is taken."""
    try:
        return drawn_job(seed, folder)
    except Faulty:
        return drawn(seed + len(SEEDS), folder)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_cause_saves_exactly_what_a_fresh_plan_without_it_saves(seed: int, tmp_path: Path) -> None:
    of = drawn(seed, tmp_path)
    try:
        plan = plan_of(of)
    except NoOrderFits:
        _nothing_left_over(of)
        return
    answer = why(of, plan)
    kept = of.with_bookings(tuple(b for b in of.bookings if plan.step(b.step).start == b.at))
    for cause, saving in answer.savings.items():
        assert saving.sure
        try:
            fresh = plan_of(without(kept, cause))
        except NoOrderFits:
            assert saving.minutes == 0
            continue
        sooner = fresh.goals[0].value < plan.goals[0].value and not fresh.released
        assert saving.minutes == (plan.finish - fresh.finish if sooner else 0)


def _nothing_left_over(of: Job) -> None:
    """The collision of a job that no order fits is one, and none of its rules can be left out."""
    air = airs(of)
    found = colliding(of, air)
    assert found is not None
    assert found.irreducible
    sentences = no_order_fits(of, air)
    assert len(sentences) > len(found.causes)
    for left_out in (*found.causes, None):
        held = [cause for cause in found.causes if cause != left_out]
        bare = without(of, *(cause for cause in causes_of(of) if cause not in held))
        assert fits(build(Case(bare, air)), 5.0) is (left_out is not None)
