"""What a change to a job may do to its hand-over: less asked, or more given, never makes it later.

Two kinds of change. Less asked (a wait not heard, a window gone or longer, no closings, no limit of a room) is true of
every job, because what kept the rules still keeps them. More given (days, hours, pauses, less work, quicker layers) is
true where nothing has to be followed in time and no air forbids or spoils: there the same starts still keep every rule.
With windows it is not: a layer that is ready sooner may have to be followed at an hour at which nobody comes.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

import pytest
from drawn_jobs import BEFORE, cut_after, drawn_job
from facts_told import fact, planned_on, told
from hypothesis import given, settings
from hypothesis import strategies as st
from random_jobs import RandomJob
from tiny_jobs import job, moment, network_of, solved, step, trade, wait

from sequencer.causes.people import on_every_day
from sequencer.files import read_job
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import airs
from sequencer.solve import NoAnswer, grid, solve
from sequencer.solve.widths import FINE
from sequencer.terms.job import Job, Step, Trade, Workday
from sequencer.terms.minute import HOUR

SEEDS = (
    2, 5, 9, 12, 13, 14, 18, 19, 21, 24, 25, 26, 30, 32, 35, 36, 40, 42, 46, 48, 49, 52, 57, 60,
    1012, 1013, 1036, 1059, 1077, 1082, 1084, 1091, 1107, 1112, 1121, 1128, 1145, 1146,
)  # fmt: skip
"""Seeds of random jobs with a plan."""

EXAMPLES = 12
OWN_NAME = re.compile(r"\br([0-9])\b")
"""The names of a random job's recipes."""

Change = Callable[[Job, Random], Job]


@cache
def random_job(seed: int) -> Job:
    with TemporaryDirectory() as folder:
        return drawn_job(seed, Path(folder))


def half_day(of: Job) -> int:
    """The half-day of the earliest hand-over; NoAnswer if no plan exists."""
    goal = solve(build(Case(of, airs(of))), effort=0.3).goals[0]
    assert goal.value <= goal.bound
    return goal.value


@cache
def usual(seed: int, calm: bool) -> int | None:
    """The half-day of a random job, as it is or calm; None if no plan exists."""
    try:
        return half_day(calmed(random_job(seed)) if calm else random_job(seed))
    except NoAnswer:
        return None


def each_step(of: Job, change: Callable[[Step], Step]) -> Job:
    return replace(of, steps=tuple(map(change, of.steps)))


def one_step(of: Job, random: Random, change: Callable[[Step], Step]) -> Job:
    chosen = random.choice(of.steps).id
    return each_step(of, lambda one: change(one) if one.id == chosen else one)


def each_trade(of: Job, change: Callable[[Trade], Trade]) -> Job:
    return replace(of, trades={name: change(one) for name, one in of.trades.items()})


def calmed(of: Job) -> Job:
    """The job without windows in time, limits of air, and shortest visits."""

    def calm(one: Step) -> Step:
        waits = tuple(replace(each, within_minutes=None, limits=()) for each in one.waits)
        return replace(one, waits=waits, air=(), look_in=None)

    house = replace(of.house, absences=(), fumes_gone=())
    return replace(each_trade(each_step(of, calm), lambda one: replace(one, shortest_visit=0)), house=house)


def _a_hearing_gone(of: Job, random: Random) -> Job:
    """Not where something is closed until a step is done: what leads up to that step is let in for its links."""
    closed = {one.use for one in of.steps if one.closing is not None and one.closing.until_done is not None}

    def deaf(one: Step) -> Step:
        return one if one.use in closed else replace(one, links=one.links[1:], needs=(), follows=())

    return one_step(of, random, deaf)


def _windows(factor: int | None) -> Change:
    def changed(of: Job, random: Random) -> Job:
        def wider(one: Step) -> Step:
            waits = (
                replace(w, within_minutes=w.within_minutes * factor if w.within_minutes and factor else None)
                for w in one.waits
            )
            return replace(one, waits=tuple(waits))

        return one_step(of, random, wider)

    return changed


def _longer_days(of: Job, random: Random) -> Job:
    def longer(day: Workday) -> Workday:
        *before, (start, end) = day.spans
        return Workday((*before, (start, end + 2 * HOUR)))

    return each_trade(of, lambda one: replace(one, days=tuple(map(longer, one.days))) if one.hour_known else one)


def _quicker(of: Job, random: Random) -> Job:
    def quicker(one: Step) -> Step:
        waits = (replace(w, hours=w.hours * 0.6, floor_hours=w.floor_hours and w.floor_hours * 0.6) for w in one.waits)
        return replace(one, waits=tuple(waits))

    return one_step(of, random, quicker)


LESS_ASKED: dict[str, Change] = {
    "a hearing gone": _a_hearing_gone,
    "a window gone": _windows(None),
    "a window three times as long": _windows(3),
    "no closings": lambda of, random: each_step(of, lambda one: replace(one, closing=None)),
    "rooms for any number": lambda of, random: replace(
        of, rooms=tuple(replace(room, at_once=len(of.steps)) for room in of.rooms)
    ),
    "nothing asked by the house": lambda of, random: replace(
        of,
        house=replace(of.house, noise=None, services={}, lift=None, absences=(), fumes_gone=()),
    ),
    "all decided and delivered": lambda of, random: replace(of, decisions=(), orders=()),
}
MORE_GIVEN: dict[str, Change] = {
    "every day a working day": lambda of, random: each_trade(
        of, lambda one: on_every_day(of, one) if one.hour_known else one
    ),
    "longer days": _longer_days,
    "all work may pause": lambda of, random: each_step(of, lambda one: replace(one, one_go=False)),
    "less work": lambda of, random: one_step(of, random, lambda one: replace(one, minutes=max(1, one.minutes - 15))),
    "a quicker layer": _quicker,
    "one more pair of hands": lambda of, random: each_trade(of, lambda one: replace(one, hands=one.hands + 1)),
}


@pytest.mark.parametrize("change", LESS_ASKED.values(), ids=LESS_ASKED)
@settings(max_examples=EXAMPLES, deadline=None, derandomize=True)
@given(seed=st.sampled_from(SEEDS), which=st.randoms(use_true_random=False))
def test_with_less_asked_hand_over_is_never_later(change: Change, seed: int, which: Random) -> None:
    before = usual(seed, calm=False)
    assert before is not None
    assert half_day(change(random_job(seed), which)) <= before


@pytest.mark.parametrize("change", MORE_GIVEN.values(), ids=MORE_GIVEN)
@settings(max_examples=EXAMPLES, deadline=None, derandomize=True)
@given(seed=st.sampled_from(SEEDS), which=st.randoms(use_true_random=False))
def test_with_more_given_and_nothing_to_follow_in_time_hand_over_is_never_later(
    change: Change, seed: int, which: Random
) -> None:
    before = usual(seed, calm=True)
    assert before is not None
    assert half_day(change(calmed(random_job(seed)), which)) <= before


@settings(max_examples=EXAMPLES, deadline=None, derandomize=True)
@given(seed=st.sampled_from(SEEDS), which=st.randoms(use_true_random=False))
def test_the_order_in_which_steps_are_written_changes_nothing_of_hand_over(seed: int, which: Random) -> None:
    of = random_job(seed)
    turned = which.sample(of.steps, len(of.steps))
    assert half_day(replace(of, steps=tuple(turned))) == usual(seed, calm=False)


@pytest.mark.parametrize("seed", SEEDS[:: len(SEEDS) // EXAMPLES])
def test_other_names_of_recipes_change_nothing_of_hand_over(seed: int, tmp_path: Path) -> None:
    made = RandomJob(seed)
    made.write(tmp_path)
    for path in sorted(tmp_path.rglob("*.yaml")):
        named = path.with_name(OWN_NAME.sub(r"z\1", path.name))
        path.rename(named).write_text(OWN_NAME.sub(r"z\1", named.read_text("utf-8")), "utf-8")
    renamed = cut_after(read_job(tmp_path, BEFORE), made.days)
    assert {step.recipe for step in renamed.steps}.isdisjoint(step.recipe for step in random_job(seed).steps)
    assert half_day(renamed) == usual(seed, calm=False)


def test_a_step_that_is_done_already_changes_nothing_of_what_is_to_come() -> None:
    steps = step("a", 90), step("b", 60, by="tiler", after="a")
    before = trade("joiner"), trade("tiler", days="Tue")
    _, bare = planned_on(job(*steps, trades=before), fact(1, "note", "", moment("Mon 9"), "dry and warm"))
    _, more = planned_on(job(*steps, step("hall/u/x", by="joiner"), trades=before), told("done hall/u/x", at="Mon 9"))
    assert more.pieces.pop("hall/u/x")
    assert more == bare


@settings(max_examples=EXAMPLES, deadline=None, derandomize=True)
@given(seed=st.sampled_from(SEEDS))
def test_a_step_elsewhere_that_nothing_waits_for_changes_nothing_of_hand_over(seed: int) -> None:
    of = random_job(seed)
    trades = {**of.trades, "joiner": replace(of.trades["you"], name="joiner")}
    bench = replace(of.steps[0], id="bath/bench/plane", trade="joiner", where="shop", minutes=1, kind="look")
    for_its_own = {"links": (), "needs": (), "follows": (), "gives": (), "takes_back": (), "waits": (), "air": ()}
    alone = replace(bench, **for_its_own, closing=None, fumes=None, look_in=None, toilet=None, lift=False)
    assert half_day(replace(of, trades=trades, steps=(*of.steps, alone))) == usual(seed, calm=False)


def test_a_layer_that_is_ready_sooner_may_have_no_hour_left_in_which_to_be_followed() -> None:
    def after(hours: float) -> Job:
        lay = step("lay", waits=[wait("cover", hours, within_minutes=120, within_of_ready=True)])
        cover = step("cover", by="tiler", after="lay ready for cover")
        return job(lay, cover, trades=[trade("you", "8-9", days="Mon"), trade("tiler", days="Tue")])

    assert solved(network_of(after(23))).starts["bath/u/cover"] == moment("Tue 8")
    with pytest.raises(NoAnswer):
        solved(network_of(after(14)))


@settings(max_examples=EXAMPLES, deadline=None, derandomize=True)
@given(seed=st.sampled_from(SEEDS))
def test_on_a_finer_grid_hand_over_is_never_later(seed: int) -> None:
    of, before = random_job(seed), usual(seed, calm=False)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(grid, "widths", lambda network: dict.fromkeys(network.tasks, FINE))
        assert before is not None
        assert half_day(of) <= before
