"""Jobs that share people: planned together, audited together, and the choice where somebody is short."""

from __future__ import annotations

import sys
from dataclasses import replace
from functools import lru_cache

import pytest
from tiny_jobs import HERE, booking, moment, room, step, times, trade
from tiny_jobs import job as tiny
from two_jobs import compare, shared

from sequencer.answers.beside import others_moved
from sequencer.answers.choice import choice
from sequencer.answers.why import why
from sequencer.audit.across import broken, counted_together
from sequencer.plan import Plans
from sequencer.planning import NoOrderFits, plan_of, plans_of
from sequencer.terms.cause import Cause
from sequencer.terms.fact import Fact
from sequencer.terms.goal import SOONEST_GOAL, VISITS
from sequencer.terms.house import House
from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import HOUR
from sequencer.terms.with_facts import with_facts
from sequencer.views.beside import others_words, sections_of
from sequencer.views.weighed import BEST_TOGETHER, FEWEST, weighed, weighed_together

SHORT = "8-10"


def one(*steps: str, by: str = "plumber", where: str | None = None, **more: object) -> Job:
    """A job of steps of two hours, one after the other, each all of a plumber's day."""
    made = [
        step(name, 2 * HOUR, by=by, after=steps[number - 1] if number else "", where=where)
        for number, name in enumerate(steps)
    ]
    people = more.pop("people", None) or (plumber(), trade("you", SHORT))
    return tiny(*made, trades=people, rooms=[room("bath")], **more)  # type: ignore[arg-type]


def plumber(**more: object) -> Trade:
    return trade("plumber", SHORT, **more)


def starts(plans: Plans, job: str) -> list[int]:
    return [each.start for each in plans.of(job).steps]


def planned(*jobs: Job, **more: object) -> Plans:
    return plans_of(jobs, 0.3, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(24))
def test_no_other_plans_of_two_jobs_are_less_late_or_earlier_together(seed: int) -> None:
    of_plans, of_all = compare(seed)
    assert of_plans == of_all


def test_what_decided_behind_hand_over_is_told_of_each_job_and_of_all_together() -> None:
    """One plumber, a day's work in each of two jobs; in one of them people live and wait for their toilet."""
    toilet = step("x", 2 * HOUR, by="plumber", gives="toilet back")
    lived_in = tiny(toilet, trades=(plumber(), trade("you", SHORT)), house=House(lived_in=True))
    plans = planned(*shared(lived_in, one("x")))
    assert [goal.name for goal in plans.behind] == ["toilet back", VISITS, SOONEST_GOAL]
    assert all(goal.proven for plan in (plans, *plans.plans) for goal in (*plans.behind, *plan.goals))
    for goal in plans.behind:
        each = [own.value for plan in plans.plans for own in plan.goals if own.name == goal.name]
        assert sum(each) == goal.value
    once = f"others come once, {BEST_TOGETHER}"
    assert weighed(plans.of("a")) == [f"toilet back: {BEST_TOGETHER}", once]
    assert weighed(plans.of("b")) == [once]
    said = ["toilet back: a half-day sooner is not possible", f"others come twice in all, {FEWEST}"]
    assert weighed_together(plans) == said
    assert [section.name for section in sections_of(plans, None)] == [
        "all jobs together",
        "then weighed, in this order",
    ]


def test_more_than_the_solver_bears_is_counted_against_the_least_that_can_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """The plumber comes twice where once would do: at any time, and behind two days of yours."""
    monkeypatch.setattr(sys.modules["sequencer.solve.several"], "MOST_TASKS", 1)
    twice = tiny(
        step("hall/u/x", HOUR, by="plumber"), step("a", 4 * HOUR), step("y", HOUR, by="plumber", after="a"),
        trades=(plumber(), trade("you", SHORT)),
    )  # fmt: skip
    plans = planned(*shared(twice, one("x", by="you", people=(trade("you", SHORT),))))
    assert [(goal.name, goal.value, goal.bound) for goal in plans.of("a").goals[1:]] == [(VISITS, 2, 1)]
    assert weighed(plans.of("a")) == ["others come twice, not known to be the fewest"]
    assert plans.of("b").goals[1:] == ()


def test_a_shared_plumber_is_never_on_two_sites_at_once() -> None:
    plans = planned(*shared(one("x"), one("x")))
    assert sorted([*starts(plans, "a"), *starts(plans, "b")]) == [moment("Mon 8"), moment("Tue 8")]


@pytest.mark.parametrize(("people", "hands"), [(frozenset({"you"}), 1), (frozenset({"you", "plumber"}), 2)])
def test_plumbers_who_are_not_shared_or_two_come_to_both_on_the_same_day(people: frozenset[str], hands: int) -> None:
    crew = (plumber(hands=hands), trade("you", SHORT))
    plans = planned(*shared(one("x", people=crew), one("x", people=crew), people=people))
    assert starts(plans, "a") == starts(plans, "b") == [moment("Mon 8")]


def test_an_inspector_of_unknown_hour_sees_both_sites_on_one_day() -> None:
    crew = (trade("inspector", SHORT, hour_known=False), trade("you", SHORT))
    looks = one("x", by="inspector", people=crew)
    jobs = shared(looks, looks, people=frozenset({"inspector"}))
    assert starts(planned(*jobs), "a") == starts(planned(*jobs), "b")


@pytest.mark.parametrize(("late", "first"), [("a", "a"), ("b", "b")])
def test_who_has_promised_the_earlier_day_comes_first(late: str, first: str) -> None:
    plans = planned(*shared(one("x"), one("x"), **{late: "Tue 0"}))
    assert starts(plans, first) == [moment("Mon 8")]
    assert plans.days_late == 0


def test_days_late_are_counted_from_the_day_promised() -> None:
    plans = planned(*shared(one("x"), one("x"), a="Tue 0", b="Tue 0"))
    assert sorted(plan.days_late for plan in plans.plans) == [0, 1]
    assert plans.days_late == plans.goals[0].value == 1


def test_the_audit_counts_days_late_and_half_days_again() -> None:
    jobs = shared(one("x"), one("x"), a="Tue 0", b="Tue 0")
    for over, counted in (("Tue 0", (0, 6)), ("Tue 10", (2, 6)), ("Wed 10", (4, 10))):
        plans = {name: times({"x": "Mon 8-10"}, over) for name in "ab"}
        assert counted_together(jobs, plans) == counted


def test_between_two_sites_there_is_time_to_travel_but_none_within_the_shop() -> None:
    crew = (trade("plumber", "8-13", travel=HOUR), trade("you", "8-13"))
    apart = planned(*shared(one("x", people=crew), one("x", people=crew)))
    assert sorted([*starts(apart, "a"), *starts(apart, "b")]) == [moment("Mon 8"), moment("Mon 11")]
    shop = planned(*shared(one("x", people=crew, where="shop"), one("x", people=crew, where="shop")))
    assert sorted([*starts(shop, "a"), *starts(shop, "b")]) == [moment("Mon 8"), moment("Mon 10")]


def test_a_firm_visit_in_one_job_keeps_the_plumber_from_the_other() -> None:
    jobs = shared(one("x", bookings=(booking("x", "Mon 8", "plumber"),)), one("x"), b="Tue 0")
    plans = planned(*jobs)
    assert starts(plans, "b") == [moment("Tue 8")]
    assert plans.days_late == 1


def test_two_firm_visits_that_meet_cannot_both_be_kept() -> None:
    firm = (booking("x", "Mon 8", "plumber"),)
    jobs = shared(one("x", bookings=firm), one("x", bookings=firm))
    for plans in (planned(*jobs), plans_of(jobs, effort=0)):
        assert sum(len(plan.released) for plan in plans.plans) == 1


def test_a_visit_that_is_given_up_brings_nobody_unasked_any_more() -> None:
    """The plumber needs notice: what else is to be done on the day of his firm visit is done then only as it stands."""
    people = (plumber(earliest=moment("Mon2 8"), notice_days=5), trade("you", SHORT))
    asked = step("hall/u/y", HOUR, by="plumber"), step("hall/u/z", 4 * HOUR, after="hall/u/y")
    late = tiny(
        step("w", 4 * HOUR),
        step("x", HOUR, by="plumber", after="w"),
        *asked,
        trades=people,
        bookings=(booking("x", "Mon 8", "plumber"),),
    )
    plans = planned(*shared(late, one("x", by="you")))
    assert [each.step for each in plans.of("a").released] == ["bath/u/x"]
    assert plans.of("a").step("hall/u/y").start >= moment("Mon2 8")


AT_ONCE = "plumber is needed at once for a: bath/u/x, b: bath/u/x"
TOO_SHORT = "plumber has no time to travel between a: bath/u/x and b: bath/u/x"
SAID = [AT_ONCE, TOO_SHORT]


@pytest.mark.parametrize(
    ("plan", "says"), [("Mon 8-10", [AT_ONCE] * 2), ("Tue 8-10", [])], ids=["at once", "a day later"]
)
def test_the_audit_finds_who_is_on_two_sites(plan: str, says: list[str]) -> None:
    jobs = shared(one("x"), one("x"))
    assert list(broken(jobs, {"a": times({"x": "Mon 8-10"}), "b": times({"x": plan})})) == says


@pytest.mark.parametrize(("start", "sound"), [("10-12", False), ("11-13", True)])
def test_the_audit_finds_a_way_that_is_too_short(start: str, sound: bool) -> None:
    crew = (trade("plumber", "8-13", travel=HOUR), trade("you", "8-13"))
    jobs = shared(one("x", people=crew), one("x", people=crew))
    said = list(broken(jobs, {"a": times({"x": "Mon 8-10"}), "b": times({"x": f"Mon {start}"})}))
    assert said == ([] if sound else [TOO_SHORT])


def test_whichever_job_is_asked_for_the_plans_are_the_same() -> None:
    a, b = shared(one("x", "y"), one("x", "y"), b="Wed 0")
    together = planned(a, b)
    assert plan_of(replace(a, beside=(b,)), 0.3) == together.of("a")
    assert plan_of(replace(b, beside=(a,)), 0.3) == together.of("b")


def test_a_job_knows_whom_it_shares_people_with_and_when_they_are_there() -> None:
    a, b = shared(one("x"), one("x"), a="Tue 0")
    plan = plan_of(replace(b, beside=(a,)), 0.3)
    assert [(each.job, each.finish, each.days_late) for each in plan.beside] == [("a", moment("Mon 10"), 0)]
    assert [(e.trade, e.job, e.step, e.start, e.end) for e in plan.elsewhere] == [
        ("plumber", "A", "x", moment("Mon 8"), moment("Mon 10"))
    ]
    waited = plan.step("bath/u/x").waited_for
    assert waited is not None
    assert waited.text == "plumber is at A"


def test_why_not_sooner_names_the_other_job_and_what_it_would_save() -> None:
    a, b = shared(one("x"), one("x"), a="Tue 0")
    job = replace(b, beside=(a,))
    found = why(job, plan_of(job, 0.3), effort=0.3)
    cause = Cause("elsewhere", "plumber")
    assert [link.text for link in found.links if link.cause == cause] == ["plumber is at A"]
    assert found.savings[cause].finish == moment("Mon 10")


@lru_cache
def short_of_a_plumber() -> tuple[tuple[Job, ...], Plans]:
    jobs = shared(one("x"), one("x"), a="Tue 0", b="Tue 0")
    return jobs, planned(*jobs)


def test_where_the_plumber_is_short_every_way_is_told_with_its_dates() -> None:
    jobs, plans = short_of_a_plumber()
    found = choice(jobs, plans, 1.0)
    assert found is not None
    assert found.later == tuple(plan.job for plan in plans.plans if plan.days_late)
    assert [(each.trade, each.minutes) for each in found.held] == [("plumber", 32 * HOUR)]
    ways = {way.first: {plan.job: plan.finish for plan in way.plans} for way in found.ways}
    assert ways == {
        "a": {"a": moment("Mon 10"), "b": moment("Tue 10")},
        "b": {"a": moment("Tue 10"), "b": moment("Mon 10")},
    }
    assert found.must_decide
    said = {section.name: section.texts for section in sections_of(plans, found)}
    assert any("missed by 1 day" in text for text in said["the choice"])


def test_nothing_is_to_choose_where_nobody_is_short_nor_to_decide_where_no_promise_breaks() -> None:
    free = shared(one("x"), one("x"), people=frozenset({"you"}))
    assert choice(free, planned(*free)) is None
    unpromised = shared(one("x"), one("x"))
    found = choice(unpromised, planned(*unpromised))
    assert found is not None
    assert not found.must_decide


def test_the_job_that_is_chosen_comes_first() -> None:
    jobs, _ = short_of_a_plumber()
    for name in "ab":
        assert starts(planned(*jobs, first=name), name) == [moment("Mon 8")]


def test_what_a_change_does_to_the_other_job_is_told_with_dates() -> None:
    a, b = shared(one("x"), one("x"), a="Tue 0")
    longer = shared(one("x", "y"), one("x"), a="Wed 0")[0]
    job, after = replace(a, beside=(b,)), plan_of(replace(longer, beside=(b,)), 0.3)
    (other,) = others_moved(job, after, 0.3)
    assert [(each.trade, each.step, each.was, each.starts) for each in other.moved] == [
        ("plumber", "x", moment("Tue 8"), moment("Wed 8"))
    ]
    assert others_words([other]) == [
        "B: hand over Wed 4 March 10:00; before Tue 3 March 10:00",
        "plumber, x: Tue 3 March 08:00 -> Wed 4 March 08:00",
    ]
    assert others_words(others_moved(job, plan_of(job, 0.3), 0.3)) == ["B: nothing moves"]


def test_who_is_away_is_away_from_every_job_and_who_is_late_from_the_one_alone() -> None:
    a, b = shared(one("x"), one("x"), b="Tue 0")
    span = (moment("Mon 0"), moment("Tue 0"))
    for kind, begins in (("away", "Tue 8"), ("late", "Mon 8")):
        said = Fact(1, kind, "plumber", moment("Mon 0"), moment("Mon 0"), "", HERE, span=span)
        plans = planned(with_facts(a, [said]), b)
        assert starts(plans, "b") == [moment(begins)]


def test_a_job_whose_people_do_not_suffice_for_both_has_no_plan() -> None:
    days = trade("plumber", SHORT, "Mon")
    crew = (replace(days, days=days.days[:1]), trade("you", SHORT))
    jobs = shared(one("x", people=crew), one("x", people=crew))
    with pytest.raises(NoOrderFits) as none:
        planned(*jobs)
    assert "too few people" in none.value.sentences[-1]
