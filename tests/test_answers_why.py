"""Why not sooner: the chain back to today, and what each cause would save, worked out by hand on jobs of a few steps.

The first week starts on Monday 2 March 2026, all hours are UTC, work is 8-12 and 13-16 from Monday to Friday.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
import tiny_jobs
from facts_told import told as told_fact
from tiny_jobs import HERE, MONDAY, air, booking, ident, keep_off, limit, moment, order, room, step, trade, wait

from sequencer import sooner as asked
from sequencer.answers.chain import Link
from sequencer.answers.why import WhyNot, why
from sequencer.causes.no_plan import NO_ORDER, NONE_FOUND, NoOrderFits
from sequencer.causes.without import without
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import plan_of, settled
from sequencer.terms.cause import Cause
from sequencer.terms.house import House
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.recipe import Recipe
from sequencer.terms.with_facts import with_facts

INSPECTOR = trade("inspector", "9-15", hour_known=False)


def job(*steps: Step, **more: Any) -> Job:
    """A tiny job whose recipes have titles, so that its plan can be written up."""
    of = tiny_jobs.job(*steps, **more)
    return replace(of, recipes={one.recipe: Recipe(one.recipe, one.recipe, HERE, ()) for one in steps})


def answered(of: Job, id: str = HAND_OVER, **more: int) -> tuple[Plan, WhyNot]:
    """The plan of a job, and why a step of it or hand-over is not sooner."""
    plan = plan_of(of)
    return plan, why(of, plan, id, **more)


def told(answer: WhyNot) -> list[tuple[str, str, str | None]]:
    """The chain as kinds, who was held up, and by whom."""
    return [(link.kind, link.step.rpartition("/")[2], link.by and link.by.rpartition("/")[2]) for link in answer.links]


COAT = step("coat", on="floor", waits=[wait("paint", 48)])
PAINT = step("paint", on="floor", after="coat ready for paint")
PIPES = step("pipes", by="plumber", after="coat")
LOOK = step("look", 30, by="inspector", kind="hold", after="coat")

SAVINGS: dict[str, tuple[Job, Cause, str, int]] = {
    "a layer that stands two days": (
        job(COAT, PAINT), Cause("wait", ident("coat"), "paint"), "Mon 10", 4,
    ),
    "a plumber who comes on Thursdays": (
        job(COAT, PIPES, trades=[trade("plumber", days="Thu")]), Cause("person", "plumber"), "Mon 10", 6,
    ),
    "a plumber who needs notice": (
        job(PIPES, COAT, trades=[trade("plumber", earliest=moment("Wed 8"))]), Cause("person", "plumber"), "Mon 10", 4,
    ),
    "a plumber kept two days behind": (
        job(PIPES, COAT, trades=[trade("plumber", cushion=14 * HOUR)]), Cause("person", "plumber"), "Mon 10", 4,
    ),
    "a plumber booked for Friday": (
        job(PIPES, COAT, bookings=(booking("pipes", "Fri 9", "plumber"),)), Cause("person", "plumber"), "Mon 10", 8,
    ),
    "one pair of hands for two days' work": (
        job(step("a", 420), step("b", 420), rooms=[room("bath", at_once=2)]), Cause("person", "you"), "Mon 16", 2,
    ),
    "a room that takes one at a time": (
        job(step("a", 420), step("b", 420, by="plumber")), Cause("room", "bath"), "Mon 16", 2,
    ),
    "an inspector who comes at some hour": (
        job(COAT, LOOK, trades=[INSPECTOR]), Cause("inspection", ident("look")), "Mon 9:15", 1,
    ),
    "tiles that come on Wednesday": (
        job(COAT, step("tile", after="coat"), orders=(order("tile", arrives="Wed 8"),)),
        Cause("delivery", "tiles"), "Mon 10", 4,
    ),
    "glass that is made in three days": (
        job(COAT, step("fit", after="coat"), orders=(order("fit", made_after="coat", lead=3),)),
        Cause("delivery", "tiles"), "Mon 10", 8,
    ),
    "noise in the afternoon of Tuesday alone": (
        job(step("saw", noisy=True), house=House(noise=((moment("Tue 13"), moment("Tue 16")),))),
        Cause("noise", ""), "Mon 9", 3,
    ),
    "water that is off for an hour at most": (
        job(
            step("tie in", 120, services_off=("house water",), by="plumber"),
            trades=[replace(trade("plumber"), days=(*trade("plumber", "8-12", "Wed").days,))],
            house=House(services={"house water": 120}, lived_in=True),
        ),
        Cause("person", "plumber"), "Mon 10", 4,
    ),
    "my own order of two rooms": (
        job(
            step("hall/u/a", 420, by="painter"), step("b", 420, after="hall/u/a", why="my order"),
        ),
        Cause("my order", ident("b"), "hall/u/a"), "Mon 16", 2,
    ),
}  # fmt: skip
"""A job, the one cause looked at, hand-over if it alone were gone, and the working half-days that saves."""


@pytest.mark.parametrize("case", SAVINGS)
def test_a_cause_saves_what_hand_over_is_sooner_without_it(case: str) -> None:
    of, cause, over, half_days = SAVINGS[case]
    plan, answer = answered(of)
    saving = answer.savings[cause]
    assert (saving.finish, saving.half_days, saving.sure) == (moment(over), half_days, True)
    assert saving.minutes == plan.finish - moment(over)
    assert answer.most == cause


@pytest.mark.parametrize("case", SAVINGS)
def test_a_saving_is_a_fresh_plan_on_changed_inputs(case: str) -> None:
    of, cause, _, _ = SAVINGS[case]
    _, answer = answered(of)
    assert answer.savings[cause].finish == plan_of(without(of, cause)).finish


@pytest.mark.parametrize("case", SAVINGS)
def test_by_half_days_alone_the_largest_saving_and_what_comes_then_are_the_same(case: str) -> None:
    of, _, _, _ = SAVINGS[case]
    plan, exact = answered(of)
    quick = why(of, plan, to_the_minute=False)
    assert (quick.links, quick.most, quick.then) == (exact.links, exact.most, exact.then)
    for cause, saving in exact.savings.items():
        assert (quick.savings[cause].half_days, quick.savings[cause].sure) == (saving.half_days, saving.sure)
    assert exact.most is not None
    assert quick.savings[exact.most] == exact.savings[exact.most]


@pytest.mark.parametrize("case", SAVINGS)
def test_the_chain_runs_from_hand_over_to_the_start_without_going_forward(case: str) -> None:
    of, _, _, _ = SAVINGS[case]
    plan, answer = answered(of)
    untils = [link.until for link in answer.links]
    assert untils[0] <= plan.finish
    assert untils == sorted(untils, reverse=True)
    assert all(link.since <= link.until for link in answer.links)
    assert answer.links[-1].since <= of.start + 9 * HOUR


def test_every_step_of_the_chain_is_named_with_its_kind() -> None:
    pipes = step("pipes", by="plumber", after="paint")
    _, answer = answered(job(COAT, PAINT, pipes, trades=[trade("plumber", days="Fri")]))
    assert told(answer) == [
        ("people", HAND_OVER, "pipes"),
        ("people", "pipes", None),
        ("people", "pipes", "paint"),
        ("material", "paint", "coat"),
        ("hours", "coat", None),
    ]


def test_nights_and_weekends_are_links_that_nothing_takes_away() -> None:
    _, answer = answered(job(step("a", 35 * HOUR), step("b", after="a")))
    gaps = [link for link in answer.links if link.kind == "hours"]
    weekend, first_night = [(link.since, link.until) for link in gaps]
    assert weekend == (moment("Fri 16"), moment("Mon2 8"))
    assert first_night == (moment("Mon 0"), moment("Mon 8"))
    assert [link.cause for link in gaps] == [None, None]
    assert answer.savings == {}


def test_what_only_moves_hand_over_within_its_half_day_saves_nothing() -> None:
    plan, answer = answered(job(step("a", waits=[wait("b", 1)]), step("b", after="a ready for b")))
    saving = answer.savings[Cause("wait", ident("a"), "b")]
    assert (saving.minutes, saving.half_days, saving.sure) == (0, 0, True)
    assert saving.finish == plan.finish
    assert answer.most is None


def test_only_the_longest_causes_are_tried_and_the_rest_is_counted() -> None:
    of = job(COAT, PAINT, step("pipes", by="plumber", after="paint"), trades=[trade("plumber", days="Fri")])
    _, answer = answered(of, most=1)
    assert list(answer.savings) == [Cause("wait", ident("coat"), "paint")]
    assert answer.untried == 1
    _, whole = answered(of)
    assert whole.untried == 0
    assert len(whole.savings) == 2


def test_a_step_that_stops_while_its_trade_is_away_says_for_whom_it_waits() -> None:
    of = job(step("pipes", 600, by="plumber"), step("end", after="pipes"), trades=[trade("plumber", days="Mon Thu")])
    _, answer = answered(of)
    link = next(one for one in answer.links if one.by == ident("pipes"))
    assert link.text == "pipes waits for plumber to come back"
    assert link.cause == Cause("person", "plumber")
    assert answer.savings[link.cause].half_days > 0


def test_causes_that_hold_twice_are_tried_once() -> None:
    steps = step("a", by="plumber"), step("b", after="a"), step("c", by="plumber", after="b")
    of = job(*steps, trades=[trade("plumber", "8-9", days="Wed")])
    _, answer = answered(of)
    assert [link.cause for link in answer.links].count(Cause("person", "plumber")) == 2
    assert list(answer.savings) == [Cause("person", "plumber")]


def test_without_the_largest_saving_the_next_reason_is_another() -> None:
    other = step("base", on="wet walls", waits=[wait("end", 24)])
    _, answer = answered(job(COAT, PAINT, other, step("end", after="base ready for end", on="wet walls")))
    assert answer.most == Cause("wait", ident("coat"), "paint")
    assert answer.then is not None
    assert answer.then.cause == Cause("wait", ident("base"), "end")


def test_a_step_kept_back_says_what_has_to_follow_it_in_time() -> None:
    of = job(
        step("mix", one_go=True, waits=[wait("use", 0, within_minutes=120)]),
        step("use", by="plumber", after="mix ready for use"),
        trades=[trade("plumber", days="Wed")],
    )
    plan, answer = answered(of, ident("mix"))
    held = answer.links[0]
    assert (held.kind, held.cause) == ("material", Cause("within", ident("mix"), "use"))
    assert held.until == plan.step(ident("mix")).start == moment("Wed 8")


def test_a_layer_that_keeps_a_floor_closed_is_a_wait_of_its_own() -> None:
    of = job(
        step("coat", on="floor", waits=[wait("foot", 24)], closing=keep_off("foot")),
        step("hang", on="ceiling", by="plumber", needs=""),
        step("last", after="coat, hang"),
    )
    _, answer = answered(of)
    link = next(one for one in answer.links if one.kind == "material")
    assert link.cause == Cause("closing", ident("coat"))
    assert link.by == ident("coat")


def test_air_that_forbids_the_work_is_a_link_and_can_be_taken_away() -> None:
    cold = air(("Mon 0", "Wed 0", 5.0, 0.5), ("Wed 0", "Fri2 0", 18.0, 0.5))
    warm = step("seal", air=(limit("while working", coldest=10.0),))
    plan, answer = answered(job(warm, rooms=[room("bath", air=cold)]))
    assert plan.finish == moment("Wed 9")
    (cause,) = answer.savings
    assert cause.kind == "air"
    assert answer.savings[cause].finish == moment("Mon 9")


def test_where_what_lies_behind_is_followed_late_savings_are_those_of_plans_that_follow_it_late_too() -> None:
    coat = step("coat", waits=[wait("pipe", 4, within_minutes=24 * HOUR)])
    pipe = step("pipe", by="plumber", after="coat ready for pipe", waits=[wait("paint", 48)])
    paint = step("paint", after="pipe ready for paint")
    of = job(coat, pipe, paint, trades=[trade("plumber", earliest=moment("Fri 8"))])
    there = settled(with_facts(of, (told_fact("done coat", at="Mon 9"),)))
    plan = plan_of(there)
    answer = why(there, plan)
    assert answer.savings[Cause("wait", ident("pipe"), "paint")].half_days > 0


def test_the_job_and_its_plan_stay_as_they_are() -> None:
    of = job(COAT, PAINT)
    plan = plan_of(of)
    before = repr(of), repr(plan)
    why(of, plan)
    assert (repr(of), repr(plan)) == before


def test_firm_visits_a_plan_gave_up_do_not_hold_it_up() -> None:
    of = job(PIPES, COAT, bookings=(booking("pipes", "Mon 8", "plumber"), booking("coat", "Mon 8")))
    plan, answer = answered(of)
    assert plan.released
    kept = {b.step for b in of.bookings if plan.step(b.step).start == b.at}
    assert all(link.step in kept for link in answer.links if "is booked" in link.text)


def test_a_free_person_comes_on_every_working_day_in_his_hours() -> None:
    of = job(PIPES, COAT, trades=[trade("plumber", "9-11", "Thu", ask_by=(0, 0))], weeks=2)
    free = without(of, Cause("person", "plumber")).trades["plumber"]
    assert [day.spans for day in free.days] == [((at + 9 * HOUR, at + 11 * HOUR),) for at, _ in of.working_days]
    asked = without(of, Cause("days", "plumber")).trades["plumber"]
    thursdays = (moment("Thu 0"), moment("Thu2 0"))
    assert asked.ask_by == tuple(at - min(thursdays, key=lambda own: abs(own - at)) for at, _ in of.working_days)
    assert not any(start % DAY == 0 for day in free.days for start, _ in day.spans)


def test_a_link_is_a_frozen_value() -> None:
    link = Link("a", "hours", "nobody works", 0, 1)
    with pytest.raises(AttributeError):
        link.kind = "people"  # type: ignore[misc]


@pytest.mark.parametrize(("said", "certain"), [(NO_ORDER, True), (NONE_FOUND, False)])
def test_that_none_was_found_rules_nothing_out(said: str, certain: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: Any, **__: Any) -> Plan:
        raise NoOrderFits((said,))

    monkeypatch.setattr(asked, "moved_by_others", lambda case: True)
    monkeypatch.setattr(asked, "plan_of", none)
    with pytest.raises(asked.NotSooner) as raised:
        asked.sooner(job(step("a")), MONDAY + DAY)
    assert raised.value.certain is certain
