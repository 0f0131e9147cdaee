"""Many rooms that share people: the orders that list passes begin with, and the bound by hands."""

from __future__ import annotations

import pytest
from tiny_jobs import MONDAY, job, network_of, step, trade

from sequencer.network.model import Network
from sequencer.solve.alike import APART, one_behind_another
from sequencer.solve.bounds.least import by_load, least_half_day
from sequencer.solve.bounds.loads import loads
from sequencer.solve.grid import lay
from sequencer.solve.look import look_at
from sequencer.solve.trim import Trimmer
from sequencer.terms.minute import HOUR

BATHS = ("a", "b", "c", "d")


def like_rooms() -> Network:
    """Four rooms, each an hour's tiling and an hour's grouting behind it, all by one."""
    tiles = [step(f"{bath}/wall/tile") for bath in BATHS]
    grouts = [step(f"{bath}/wall/grout", after=f"{bath}/wall/tile") for bath in BATHS]
    steps = [each for pair in zip(tiles, grouts, strict=True) for each in pair]
    return network_of(job(*steps))


def test_like_rooms_stand_one_behind_another_each_in_the_order_of_one_alone() -> None:
    network = like_rooms()
    problem = lay(network, network.horizon)
    orders = one_behind_another(problem, int(problem.half_day[-1]), passes=50)
    assert len(orders) == len(APART)
    for order in orders:
        at = dict(zip(problem.ids, order, strict=True))
        tiles, grouts = ([at[f"{bath}/wall/{name}"] for bath in BATHS] for name in ("tile", "grout"))
        assert tiles == sorted(set(tiles))
        assert {round(grout - tile, 6) for tile, grout in zip(tiles, grouts, strict=True)} == {HOUR / problem.slot}


@pytest.mark.parametrize(("minutes", "hours"), [(46, 4), (45, 3), (61, 5)])
def test_who_begins_on_the_quarter_takes_up_whole_quarters(minutes: int, hours: int) -> None:
    """Four steps by one who is there for as long as it takes: 46 minutes keep him for an hour each."""
    steps = [step(name, minutes) for name in BATHS]
    network = network_of(job(*steps, trades=(trade("you", hours="8-16"),)))
    assert max(load.least(MONDAY) for load in loads(network)) == MONDAY + (8 + hours) * HOUR


def test_the_bound_by_hands_is_no_later_than_any_plan() -> None:
    network = like_rooms()
    look = look_at(network, passes=20)
    problem, places = look.problem, look.places
    assert places is not None
    bound = least_half_day(Trimmer(problem), int(problem.half_day[-1]), by_load(problem, loads(network)))
    assert bound <= int(problem.half_day[places[problem.hand_over]])
