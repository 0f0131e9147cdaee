"""Room for a slip: how much later a step may start, what begins before it as it is, before hand-over moves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from drawn_jobs import drawn_job
from test_sequence_properties import SEEDS
from test_sequence_properties import network_of as built
from tiny_jobs import job, network_of, solved, step, trade, wait

from sequencer.network.model import Network
from sequencer.solve.cp_model import Model
from sequencer.solve.grid import lay
from sequencer.solve.problem import Arc, Problem
from sequencer.solve.search import new_solver
from sequencer.solve.solve import solve
from sequencer.solve.trim import Trimmed
from sequencer.terms.minute import HOUR

LONG = step("hall/u/long", 40 * 60, by="carpenter")
"""Five days of eight hours; work of others beside it has room."""


def slips(*steps: object, **more: object) -> dict[str, float]:
    """Hours every step may slip."""
    found = solved(network_of(job(*steps, **more))).slips  # type: ignore[arg-type]
    return {id: minutes / HOUR for id, minutes in found.items()}


def test_what_hand_over_waits_for_has_no_room() -> None:
    found = slips(LONG, step("a"))
    assert found["hall/u/long"] == 0
    assert found["bath/u/a"] > 4 * 24


def test_a_step_that_must_follow_in_time_slips_no_further_than_its_latest() -> None:
    """Work from 8 to 9, ready at 10, to be followed by 13:00: three hours; what is in front slips with it."""
    layer = step("a", waits=[wait("b", 1, within_minutes=4 * HOUR)])
    found = slips(LONG, layer, step("b", after="a ready for b"), step("c", after="b"))
    assert found["bath/u/b"] == 3
    assert found["bath/u/a"] > 4 * 24
    assert found["bath/u/c"] > 4 * 24


def test_a_step_slips_no_further_than_what_comes_behind_it_may_follow_a_layer_in_front() -> None:
    """c has to follow a's layer by 14:00, and b, an hour's work at 9:00, comes in between: at 13:00 at the latest."""
    layer = step("a", waits=[wait("c", 1, within_minutes=5 * HOUR)])
    found = slips(LONG, layer, step("b", by="tiler", after="a"), step("c", by="painter", after="a ready for c, b"))
    assert found["bath/u/b"] == 4


def test_what_follows_two_who_work_at_once_follows_both_of_them_still() -> None:
    """Two hands, four hours each, over on Monday at 14:00: the last begins at 9:00, the others on Friday at 13:00."""
    mason = trade("mason", hands=2)
    names = ("east/u/a", "west/u/b", "north/u/c")
    found = slips(LONG, *(step(name, 4 * 60, by="mason") for name in names), trades=(mason,))
    assert [found[name] for name in names] == [101, 101, 164]


@pytest.mark.parametrize("seed", SEEDS)
def test_no_step_may_slip_further_and_each_may_slip_as_far_by_solving_again(seed: int, tmp_path: Path) -> None:
    exact_in(built(drawn_job(seed, tmp_path)))


def exact_in(network: Network) -> None:
    """Solves again with every step held at its latest start, and later: what begins before it stays, order is kept."""
    answer = solve(network, effort=0.2)
    problem = lay(network.without_bookings(answer.released), network.horizon)
    slots = [(answer.starts[id] - problem.base) // problem.slot for id in problem.ids]
    places = [int(starts.searchsorted(slot)) for starts, slot in zip(problem.starts, slots, strict=True)]
    kept = in_this_order(problem, slots, places)
    for task, id in enumerate(problem.ids):
        latest = int(problem.starts[task].searchsorted(slots[task] + answer.slips[id] // problem.slot))
        assert problem.starts[task][latest] * problem.slot == slots[task] * problem.slot + answer.slips[id]
        assert fits(kept, slots, places, task, latest, latest)
        assert not fits(kept, slots, places, task, latest + 1, len(problem.starts[task]) - 1)


def in_this_order(problem: Problem, slots: list[int], places: list[int]) -> Problem:
    """The problem with every two claims of a group, one over when the other begins, kept one behind the other."""
    kept = []
    for group in problem.groups:
        spans = [(slots[c.task], int(c.until[places[c.last]]), c) for c in group.claims]
        kept += [
            Arc(one.last, other.task, one.until)
            for begin, until, one in spans
            for start, end, other in spans
            if until <= start and (begin, until) != (start, end) and one.last != other.task
        ]
    return replace(problem, arcs=(*problem.arcs, *kept))


def fits(problem: Problem, slots: list[int], places: list[int], task: int, first: int, last: int) -> bool:
    """True if a plan exists with a task's place in a range, hand-over no later, what begins before it as it is."""
    if first > last:
        return False
    lows = [place if slot < slots[task] else 0 for slot, place in zip(slots, places, strict=True)]
    highs = [
        place if slot < slots[task] else len(starts) - 1
        for slot, place, starts in zip(slots, places, problem.starts, strict=True)
    ]
    highs[problem.hand_over] = places[problem.hand_over]
    lows[task], highs[task] = first, min(last, highs[task])
    if lows[task] > highs[task]:
        return False
    status = new_solver(5.0).solve(Model(problem, Trimmed(tuple(lows), tuple(highs))).cp)
    return {"OPTIMAL": True, "FEASIBLE": True, "INFEASIBLE": False}[new_solver(0).status_name(status)]
