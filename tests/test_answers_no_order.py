"""No order fits: the rules that collide, nothing in them left over, and the smallest thing to give.

The first week starts on Monday 2 March 2026, all hours are UTC, work is 8-12 and 13-16 from Monday to Friday.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tiny_jobs import (
    HERE,
    air,
    booking,
    decision,
    for_so_long,
    ident,
    job,
    keep_off,
    limit,
    moment,
    nights,
    order,
    room,
    spans,
    step,
    toilet,
    trade,
    wait,
)

from sequencer.causes.collide import Collision, collision
from sequencer.causes.concerned import concerns
from sequencer.causes.give import Possible, smallest
from sequencer.causes.listed import causes_of
from sequencer.causes.no_order import colliding, no_order_fits
from sequencer.causes.say import place_of, said
from sequencer.causes.without import without
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.planning import NoOrderFits, airs, plan_of
from sequencer.solve import NoAnswer, fits, pushed_out, solve
from sequencer.terms.cause import Cause
from sequencer.terms.house import House
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR
from sequencer.terms.recipe import Recipe


def possible(of: Job) -> bool | None:
    """Whether some order of work fits a job."""
    return fits(build(Case(of, airs(of))), 1.0)


def of_causes(*causes: Cause) -> frozenset[Cause]:
    return frozenset(causes)


COAT = step("coat", on="floor", waits=[wait("pipe", 4, within_minutes=24 * HOUR)])
PIPE = step("pipe", by="plumber", after="coat ready for pipe")
WITHIN, WAIT = Cause("within", ident("coat"), "pipe"), Cause("wait", ident("coat"), "pipe")

COLLISIONS: dict[str, tuple[Job, frozenset[Cause]]] = {
    "a cushion longer than a window": (
        job(COAT, PIPE, trades=[trade("plumber", days="Thu", weeks=3, cushion=8 * HOUR)], weeks=3),
        of_causes(WITHIN, Cause("cushion", "plumber")),
    ),
    "a window over a weekend that nobody works": (
        job(
            COAT, PIPE, trades=[trade("you", days="Fri"), trade("plumber", days="Mon")],
        ),
        of_causes(WITHIN, Cause("days", "you"), Cause("days", "plumber")),
    ),
    "tiles that come when all is over": (
        job(step("tile"), orders=(order("tile", arrives="Sat2 0"),)), of_causes(Cause("delivery", "tiles")),
    ),
    "a notice that runs past the calendar": (
        job(PIPE, COAT, trades=[trade("plumber", earliest=moment("Fri2 15:30"))]),
        of_causes(Cause("notice", "plumber")),
    ),
    "noise that is never allowed while the saw is there": (
        job(
            step("saw", 120, noisy=True, by="plumber"), trades=[trade("plumber", "8-12")],
            house=House(noise=((moment("Mon 13"), moment("Mon 16")),)),
        ),
        of_causes(Cause("noise", "")),
    ),
    "water off for longer than the house bears": (
        job(step("tie in", 180, services_off=("house water",)), house=House(services={"house water": 90})),
        of_causes(Cause("service", "house water")),
    ),
    "a room too cold for the work": (
        job(
            step("seal", air=(limit("while working", coldest=10.0),)),
            rooms=[room("bath", air=air(("Mon 0", "Mon3 0", 5.0, 0.5)))],
        ),
        of_causes(Cause("air", ident("seal"), str(HERE))),
    ),
    "two people who must follow one coat at once": (
        job(
            step("coat", waits=[wait("one", 1, within_minutes=90), wait("two", 1, within_minutes=90)]),
            step("one", 180, after="coat ready for one"), step("two", 180, after="coat ready for two"),
            rooms=[room("bath", at_once=3)],
        ),
        of_causes(Cause("hands", "you"), Cause("within", ident("coat"), "one"), Cause("within", ident("coat"), "two")),
    ),
    "a layer that never dries in time": (
        job(step("coat", waits=[wait("next", 400)]), step("next", after="coat ready for next")),
        of_causes(Cause("wait", ident("coat"), "next")),
    ),
    "a house that is shut while you work": (
        job(step("a", 120), house=House(access=spans("Mon 16:30-20"))), of_causes(Cause("access", "")),
    ),
    "a lift that is booked for an hour": (
        job(step("carry", 120, lift=True), house=House(lift=spans("Mon 8-9"))), of_causes(Cause("lift", "")),
    ),
    "a toilet that is away till Wednesday": (
        job(
            step("off"), step("back", after="off", by="plumber"), house=toilet("off", "back"),
            trades=[trade("you", days="Mon"), trade("plumber", days="Wed")],
        ),
        of_causes(Cause("toilet", ident("off")), Cause("days", "you"), Cause("days", "plumber")),
    ),
    "a test over a night in an empty house": (
        job(
            step("fill", look_in=for_so_long(12), waits=[wait("read", 20)]), step("read", after="fill ready for read"),
        ),
        of_causes(Cause("look in", ident("fill")), Cause("wait", ident("fill"), "read")),
    ),
    "fumes that outlast what must follow": (
        job(
            step("coat", waits=[wait("cover", 2, within_minutes=240)], fumes=for_so_long(8)),
            step("next", after="coat ready for cover"),
        ),
        of_causes(Cause("fumes", ident("coat")), Cause("within", ident("coat"), "cover")),
    ),
    "fumes that are there at night": (
        job(step("coat", fumes=for_so_long(14)), house=House(fumes_gone=nights())),
        of_causes(Cause("fumes at night", ""), Cause("fumes", ident("coat"))),
    ),
    "a decision that comes when all is over": (
        job(step("tile"), decisions=(decision("tile", "Sat2 0"),)), of_causes(Cause("decision", "colour")),
    ),
}  # fmt: skip
"""Jobs that no order of work fits, and the rules that collide in them."""


@pytest.mark.parametrize("case", COLLISIONS)
def test_the_rules_that_collide_are_found(case: str) -> None:
    of, causes = COLLISIONS[case]
    assert possible(of) is False
    found = colliding(of, airs(of))
    assert found is not None
    assert frozenset(found.causes) == causes
    assert found.irreducible


@pytest.mark.parametrize("case", COLLISIONS)
def test_with_any_one_of_them_gone_a_plan_appears(case: str) -> None:
    of, _ = COLLISIONS[case]
    found = colliding(of, airs(of))
    assert found is not None
    for cause in found.causes:
        changed = without(of, cause)
        assert solve(build(Case(changed, airs(changed))), 0.2).starts


@pytest.mark.parametrize("case", COLLISIONS)
def test_alone_they_collide_already(case: str) -> None:
    of, causes = COLLISIONS[case]
    bare = without(of, *(cause for cause in causes_of(of) if cause not in causes))
    with pytest.raises(NoAnswer):
        solve(build(Case(bare, airs(bare))), 0.2)


GIVEN = {
    "a cushion longer than a window": {
        Cause("cushion", "plumber"): "a cushion of 6 h instead of 8 h",
        WITHIN: "within 8 d instead of 24 h",
    },
    "a window over a weekend that nobody works": {
        WITHIN: "within 72 h instead of 24 h",
        Cause("days", "you"): "you on Mon 2 March 2026 too",
        Cause("days", "plumber"): "plumber on Fri 6 March 2026 too",
    },
    "tiles that come when all is over": {Cause("delivery", "tiles"): "on site before Fri 13 March 2026"},
    "a notice that runs past the calendar": {Cause("notice", "plumber"): "plumber from Fri 13 March 2026 on"},
    "noise that is never allowed while the saw is there": {
        Cause("noise", ""): "noise from 3 h earlier on",
    },
    "water off for longer than the house bears": {
        Cause("service", "house water"): "house water off for 3 h at a time instead of 90 min",
    },
    "a room too cold for the work": {
        Cause("air", ident("seal"), str(HERE)): "heat the room (air: heated to 12 C)",
    },
    "two people who must follow one coat at once": {
        Cause("hands", "you"): "a second pair of hands for you",
        Cause("within", ident("coat"), "one"): "within 5 h 30 min instead of 90 min",
        Cause("within", ident("coat"), "two"): "within 5 h 30 min instead of 90 min",
    },
    "a layer that never dries in time": {
        Cause("wait", ident("coat"), "next"):
            "ready after 270 h instead of 400 h, by a quicker product",
    },
    "a house that is shut while you work": {
        Cause("access", ""): "the house open from 2 h 30 min earlier on",
    },
    "a lift that is booked for an hour": {Cause("lift", ""): "the lift booked until 1 h later"},
    "a toilet that is away till Wednesday": {
        Cause("toilet", ident("off")): "2 nights without a toilet instead of 0",
        Cause("days", "you"): "you on Wed 4 March 2026 too",
        Cause("days", "plumber"): "plumber on Mon 2 March 2026 too",
    },
    "a test over a night in an empty house": {
        Cause("look in", ident("fill")): "left alone for 16 h instead of 12 h",
        Cause("wait", ident("fill"), "read"): "ready after 7 h instead of 20 h, by a quicker product",
    },
    "fumes that outlast what must follow": {
        Cause("fumes", ident("coat")): "that people may be in the fumes",
        Cause("within", ident("coat"), "cover"): "within 16 h instead of 4 h",
    },
    "fumes that are there at night": {
        Cause("fumes at night", ""): "a night away from the fumes",
        Cause("fumes", ident("coat")): "that people may be in the fumes",
    },
    "a decision that comes when all is over": {Cause("decision", "colour"): "decided before Fri 13 March 2026"},
}  # fmt: skip
"""The smallest thing to give, worked out by hand."""


@pytest.mark.parametrize(("case", "cause"), [(case, cause) for case, given in GIVEN.items() for cause in given])
def test_the_smallest_thing_to_give_is_named(case: str, cause: Cause) -> None:
    of, causes = COLLISIONS[case]
    assert frozenset(GIVEN[case]) == causes
    way = smallest(of, cause, lambda changed: possible(changed) is True)
    assert way is not None
    assert way.words == GIVEN[case][cause]
    assert solve(build(Case(way.job, airs(way.job))), 0.2).starts


def test_what_gives_nothing_alone_is_said_so() -> None:
    never: Possible = lambda changed: False  # noqa: E731
    assert smallest(COLLISIONS["a cushion longer than a window"][0], WITHIN, never) is None


def test_two_collisions_at_once_are_told_one_at_a_time() -> None:
    of = job(step("tile"), step("fit"), orders=(order("tile", arrives="Sat2 0"),))
    late = replace(of.orders[0], name="glass", item="glass", for_steps=(ident("fit"),))
    told = no_order_fits(replace(of, orders=(*of.orders, late)), airs(of))
    assert told[0] == "This rule cannot be kept:"
    assert told[1] == "job.yaml:1:1: tiles takes 0 working days to come; to give this alone is not enough"
    assert told[2] == "With the first of them given: this rule cannot be kept:"
    assert told[3].startswith("job.yaml:1:1: glass takes 0 working days to come; give: on site before")
    assert len(told) == 4


def test_of_very_many_collisions_three_are_told_and_that_there_are_more() -> None:
    names = ("a", "b", "c", "d")
    of = job(*(step(name) for name in names))
    late = (replace(order(name, arrives="Sat2 0"), name=name, item=name) for name in names)
    told = no_order_fits(replace(of, orders=tuple(late)), airs(of))
    assert [line.startswith(("This rule", "With the first")) for line in told] == [True, False] * 3 + [False]
    assert told[-1] == "More rules than these collide."


def test_a_firm_visit_is_blamed_only_where_nothing_else_is() -> None:
    of = job(COAT, PIPE, bookings=(booking("coat", "Mon 8"), booking("pipe", "Mon 11", "plumber")))
    found = colliding(of, airs(of))
    assert found is not None
    assert {cause.kind for cause in found.causes} == {"wait", "booking"}
    late = colliding(replace(of, orders=(order("coat", arrives="Sat2 0"),)), airs(of))
    assert late is not None
    assert late.causes == (Cause("delivery", "tiles"),)


def test_the_sentences_name_rule_place_and_what_to_give() -> None:
    of, _ = COLLISIONS["a cushion longer than a window"]
    assert no_order_fits(of, airs(of)) == (
        "These 2 rules cannot all be kept:",
        "job.yaml:1:1: plumber is kept 8 h behind the work in front; give: a cushion of 6 h instead of 8 h",
        "job.yaml:1:1: coat: followed within 24 h by pipe; give: within 8 d instead of 24 h",
    )


def test_a_job_that_fits_has_nothing_to_tell() -> None:
    of = job(COAT, step("pipe", after="coat ready for pipe"))
    assert colliding(of, airs(of)) is None
    assert no_order_fits(of, airs(of)) == ()


def test_hours_that_do_not_hold_the_work_are_told_as_such() -> None:
    of = job(step("a", 15 * 7 * HOUR))
    (said_of_hours,) = no_order_fits(of, airs(of))
    assert said_of_hours == "The hours of work and the order of the recipes alone do not fit the calendar."


def test_a_set_that_is_cut_short_says_that_it_may_be_too_large() -> None:
    of, causes = COLLISIONS["a cushion longer than a window"]
    found = colliding(of, airs(of), work=3)
    assert found is not None
    assert causes <= frozenset(found.causes)
    assert not found.irreducible


def test_what_is_not_narrowed_further_is_told_as_suspected() -> None:
    of, _ = COLLISIONS["a cushion longer than a window"]
    many = (replace(decision("coat", "Mon 0"), name=f"d{number}") for number in range(30))
    told = no_order_fits(replace(of, decisions=tuple(many)), airs(of), work=3)
    assert told[0].startswith("Some among these ")
    assert told[0].endswith(" rules cannot all be kept, not narrowed further:")


def test_the_steps_that_run_out_of_the_calendar_are_named_and_no_others() -> None:
    of, _ = COLLISIONS["a cushion longer than a window"]
    more = job(*of.steps, step("hall/u/paint"), trades=[*of.trades.values()], weeks=3)
    pushed = pushed_out(build(Case(more, airs(more))))
    assert {ident("coat"), ident("pipe")} <= pushed | {"hand over"}
    assert "hall/u/paint" not in pushed
    assert pushed_out(build(Case(job(step("a")), airs(job(step("a")))))) == frozenset()


def test_rules_on_other_steps_are_not_looked_at_first() -> None:
    of = job(
        step("saw", noisy=True, by="plumber", air=(limit("while working", coldest=1.0),)), step("mop"),
        orders=(order("saw", arrives="Mon 0"),), trades=[trade("plumber", days="Thu", cushion=60)],
        house=House(noise=((moment("Mon 8"), moment("Mon 9")),)),
    )  # fmt: skip
    causes = causes_of(of)
    assert [cause for cause in causes if not concerns(of, cause, frozenset({ident("saw")}))] == []
    assert [cause.kind for cause in causes if concerns(of, cause, frozenset({ident("mop")}))] == ["room"]


def test_a_cure_too_slow_for_its_window_in_a_cold_room_asks_for_heat() -> None:
    cures = replace(wait("tile", 24, within_minutes=36 * HOUR), law="cement", at_temperature=20.0)
    screed = step("screed", on="floor", waits=[cures], air=(limit("while working", coldest=5.0),))
    cold = room("bath", air=air(("Mon 0", "Fri2 0", 6.0, 0.5)))
    of = job(screed, step("tile", after="screed ready for tile"), rooms=[cold])
    found = colliding(of, airs(of))
    assert found is not None
    assert set(found.causes) == {Cause("within", ident("screed"), "tile"), Cause("wait", ident("screed"), "tile")}
    way = smallest(of, Cause("wait", ident("screed"), "tile"), lambda changed: possible(changed) is True)
    assert way is not None
    assert way.words.startswith("heat the room (air: heated to ")
    assert airs(way.job)["bath"].temperature.min() > 6.0
    assert possible(way.job)


def test_a_firm_visit_is_not_named_where_no_order_fits_without_it_either() -> None:
    of, causes = COLLISIONS["a cushion longer than a window"]
    visited = replace(of, bookings=(booking("pipe", "Thu 9", "plumber"),))
    told = no_order_fits(visited, airs(visited))
    assert len(told) == 1 + len(causes)
    assert not any("is booked" in line for line in told)


def test_two_that_cannot_both_follow_a_third_in_time_are_seen_without_a_search() -> None:
    of, _ = COLLISIONS["two people who must follow one coat at once"]
    network = build(Case(of, airs(of)))
    assert {ident("coat"), ident("one"), ident("two")} == pushed_out(network)
    two = replace(of, trades={"you": trade("you", hands=2)})
    assert pushed_out(build(Case(two, airs(two)))) == frozenset()


def test_a_layer_that_its_own_damp_keeps_wet_asks_for_a_drier_room() -> None:
    dries = replace(wait("next", 4, within_minutes=30 * HOUR), law="water film")
    coat = step("coat", on="floor", waits=[dries], water=8.0, dries_for="next")
    of = job(coat, step("next", after="coat ready for next"), rooms=[room("bath", volume=10.0, air_changes=0.1)])
    told = no_order_fits(of, airs(of))
    assert any("give: a drier room: a window or fan that brings " in line for line in told)
    dry = replace(of.rooms[0], air_changes=30.0)
    assert possible(replace(of, rooms=(dry,)))


def test_the_exception_looks_for_the_collision_only_when_it_is_read() -> None:
    of, _ = COLLISIONS["tiles that come when all is over"]
    with pytest.raises(NoOrderFits) as raised:
        plan_of(replace(of, recipes={"u": Recipe("u", "u", HERE, ())}))
    assert str(raised.value).startswith("No order of work fits all the rules.")
    assert raised.value.sentences[0] == "No order of work fits all the rules."
    assert raised.value.sentences[2].startswith("job.yaml:1:1: tiles takes 0 working days to come; give: on site")


def test_every_kind_of_cause_has_a_sentence_and_can_be_taken_away() -> None:
    of = job(
        step("coat", on="floor", waits=[wait("pipe", 4, limit("stops", coldest=5.0), within_minutes=60)]),
        step("hold", kind="hold", by="inspector", after="coat"),
        step("pipe", by="plumber", after="coat ready for pipe"),
        step("fill", on="floor", closing=keep_off("drain is done")),
        step("drain", after="fill"),
        step("other/a", after="drain", why="my order"),
        trades=[
            trade("inspector", hour_known=False),
            trade("plumber", days="Thu", earliest=moment("Tue 0"), cushion=60, shortest_visit=60, travel=30),
        ],
        bookings=(booking("pipe", "Thu 8", "plumber"),),
        orders=(order("pipe", arrives="Tue 8"), replace(order("drain", made_after="coat", lead=2), name="glass")),
        house=House(lived_in=True, noise=((moment("Mon 8"), moment("Mon 9")),), services={"house water": 60}),
    )
    causes = causes_of(of)
    assert {cause.kind for cause in causes} == {
        "wait", "within", "closing", "air", "my order", "room", "hands", "travel", "days", "notice",
        "cushion", "shortest visit", "booking", "inspection", "delivery", "service", "one day", "noise",
    }  # fmt: skip
    sentences = [said(of, cause) for cause in causes]
    assert len(set(sentences)) == len(causes)
    for cause in causes:
        where = place_of(of, cause)
        assert where == (of.house.place if cause.kind in ("service", "one day", "noise") else HERE)
        assert without(of, cause) != of


def oracle(sets: list[frozenset[int]]) -> Callable[[frozenset[Cause]], bool | None]:
    """Fits unless all of one of the sets are held."""
    return lambda held: not any({Cause("air", str(n)) for n in one} <= held for one in sets)


@given(st.lists(st.frozensets(st.integers(0, 30), min_size=1, max_size=5), min_size=1, max_size=4))
@settings(max_examples=200, deadline=None)
def test_of_any_sets_that_collide_one_is_found_whole_and_with_nothing_added(sets: list[frozenset[int]]) -> None:
    causes = [Cause("air", str(n)) for n in range(31)]
    found = collision(causes, oracle(sets))
    assert found is not None
    assert found.irreducible
    numbers = {int(cause.of) for cause in found.causes}
    smallest_sets = [one for one in sets if not any(other < one for other in sets)]
    assert numbers in smallest_sets
    assert [causes.index(cause) for cause in found.causes] == sorted(numbers)


@given(st.frozensets(st.integers(0, 127), min_size=1, max_size=3))
@settings(max_examples=50, deadline=None)
def test_few_questions_find_a_few_rules_among_many(one: frozenset[int]) -> None:
    asked = []
    fits_then = oracle([one])

    def counted(held: frozenset[Cause]) -> bool | None:
        asked.append(held)
        return fits_then(held)

    assert collision([Cause("air", str(n)) for n in range(128)], counted) is not None
    assert len(asked) <= 2 + 3 * 2 * 8


@pytest.mark.parametrize("seed", range(20))
def test_where_giving_more_helps_less_nothing_is_claimed_that_is_not_so(seed: int) -> None:
    """Shorter waits can close a window: an oracle that is not monotone still never yields a set called irreducible
    of which a member can be left out."""
    random = Random(seed)
    answers: dict[frozenset[Cause], bool | None] = {}
    causes = [Cause("air", str(n)) for n in range(6)]

    def whim(held: frozenset[Cause]) -> bool | None:
        if held == frozenset(causes):
            return False
        return answers.setdefault(held, random.choice((True, False, None)))

    found = collision(causes, whim)
    assert isinstance(found, Collision)
    if found.irreducible and found.causes:
        held = frozenset(found.causes)
        assert whim(held) is False
        assert all(whim(held - {cause}) is True for cause in held)
