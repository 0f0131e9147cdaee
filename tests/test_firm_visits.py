"""A firm visit stands though work in front of it ends within its cushion, and the cushion is kept where it can be."""

from __future__ import annotations

import json

import pytest
from booked_jobs import booked_job, faults
from planned_jobs import planned, whole
from test_together import SHORT, one, plumber
from test_together import planned as together
from tiny_jobs import booking, job, moment, step, trade
from two_jobs import shared

from sequencer.answers.on_site.site import on_site
from sequencer.answers.why import why
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR
from sequencer.views.as_json import plan_as_json
from sequencer.views.foot import foot_of

HALF_A_DAY = 4 * HOUR


def booked(for_: str, *more: str, of_yours: int = 7) -> tuple[Job, Plan]:
    """Hours of yours on Monday from 8 on, then a plumber with half a day of cushion; another visit of his, `more`."""
    steps = [step("a", of_yours * HOUR), step("b", by="plumber", after="a")]
    steps += [step(f"hall/u/{name}", by="plumber", after="b") for name in more[:1]]
    visits = [booking("b", for_, "plumber"), *(booking("hall/u/c", at, "plumber") for at in more[1:])]
    crew = trade("plumber", cushion=HALF_A_DAY)
    return planned(job(*steps, trades=[crew], bookings=tuple(visits)))


def test_a_firm_visit_stands_though_work_in_front_ends_within_its_cushion() -> None:
    """Your work ends on Monday at 16, which is Tuesday at 13 half a day of his later."""
    of, plan = booked("Tue 8")
    assert plan.step("bath/u/b").start == moment("Tue 8")
    assert (plan.released, plan.cushions_used) == ((), ("bath/u/b",))
    told = next(section for section in foot_of(plan) if section.name.startswith("bookings that stand"))
    assert "Tue 3 March 08:00" in told.texts[0]
    assert json.loads(plan_as_json(plan))["cushions_used"] == ["bath/u/b"]
    assert why(of, plan, HAND_OVER).links
    assert on_site(of, plan).start("bath/u/b") == moment("Tue 8")


def test_where_the_cushion_can_be_kept_it_is() -> None:
    _, plan = booked("Tue 8", of_yours=3)
    assert plan.cushions_used == ()
    assert plan.step("bath/u/a").end <= moment("Mon 11")


def test_a_visit_that_comes_before_the_work_in_front_is_given_up_and_keeps_its_cushion() -> None:
    _, plan = booked("Mon 9")
    assert [each.step for each in plan.released] == ["bath/u/b"]
    assert plan.step("bath/u/b").start == moment("Tue 13")
    assert plan.cushions_used == ()


def test_of_two_visits_one_may_use_its_cushion_up_and_the_other_be_given_up() -> None:
    _, plan = booked("Tue 8", "c", "Mon 8")
    assert [each.step for each in plan.released] == ["hall/u/c"]
    assert plan.cushions_used == ("bath/u/b",)


def test_no_more_cushions_are_used_up_than_need_be() -> None:
    """The tiler waits for your first three hours, the plumber for all six: half a day behind those is too late."""
    crews = [trade(name, cushion=HALF_A_DAY) for name in ("tiler", "plumber")]
    steps = (
        step("a", 3 * HOUR), step("hall/u/b", 3 * HOUR, after="a"),
        step("c", by="tiler", after="a"), step("hall/u/d", by="plumber", after="hall/u/b"),
    )  # fmt: skip
    visits = booking("c", "Tue 8", "tiler"), booking("hall/u/d", "Tue 8", "plumber")
    _, plan = planned(job(*steps, trades=crews, bookings=visits))
    assert (plan.released, plan.cushions_used) == ((), ("hall/u/d",))


def test_a_visit_is_kept_by_using_up_the_cushion_of_another() -> None:
    """A day of yours, in two halves, each before a visit of its own: one of the two halves comes second."""
    crew = [trade("plumber", cushion=HALF_A_DAY, hands=2)]
    steps = (
        step("a", 3 * HOUR), step("hall/u/b", 3 * HOUR),
        step("c", by="plumber", after="a"), step("hall/u/d", by="plumber", after="hall/u/b"),
    )  # fmt: skip
    visits = booking("c", "Tue 8", "plumber"), booking("hall/u/d", "Tue 8", "plumber")
    _, plan = planned(job(*steps, trades=crew, bookings=visits))
    assert plan.released == ()
    assert len(plan.cushions_used) == 1


@pytest.mark.parametrize("seed", [0, 1, 3, 5, 7, 8, 315])
def test_trying_every_start_keeps_no_more_firm_visits_and_uses_up_no_fewer_cushions(seed: int) -> None:
    """Half of these use a cushion up, half of them give a visit up."""
    assert faults(booked_job(seed)) == []


def test_where_one_more_visit_can_be_kept_those_given_up_are_not_called_the_fewest() -> None:
    """Two visits at once, one behind the other: either alone would do with its cushion used up, and none is kept."""
    of = booked_job(1477)
    plan = plan_of(of, 0.5)
    assert plan.fewest_released is (faults(of) == [])


@pytest.mark.parametrize(("at", "used", "gone"), [("Tue 8", ["bath/u/b"], []), ("Mon 9", [], ["bath/u/b"])])
def test_a_first_plan_too_uses_a_cushion_up_and_gives_a_visit_up(at: str, used: list[str], gone: list[str]) -> None:
    of, _ = booked(at)
    plan = plan_of(of, 0.0)
    assert ([*plan.cushions_used], [each.step for each in plan.released]) == (used, gone)


def test_of_two_visits_that_clash_the_one_that_comes_later_is_given_up() -> None:
    steps = step("a", 2 * HOUR, by="plumber"), step("b", by="plumber"), step("c", by="plumber")
    visits = [booking(name, f"Mon {at}", "plumber") for name, at in (("a", "8"), ("b", "9"), ("c", "14"))]
    of = whole(job(*steps, trades=[trade("plumber")], bookings=tuple(visits)))
    for effort in (0.0, 0.2):
        plan = plan_of(of, effort)
        assert [each.step for each in plan.released] == ["bath/u/b"]
        assert plan.fewest_released is (effort > 0)


@pytest.mark.parametrize(("at", "used"), [("Tue 8", ("bath/u/b",)), ("Wed 8", ())])
def test_in_one_of_several_jobs_it_is_the_same(at: str, used: tuple[str, ...]) -> None:
    people = (plumber(cushion=HOUR), trade("you", SHORT))
    steps = step("a", 2 * HOUR), step("b", HOUR, by="plumber", after="a")
    plans = together(*shared(job(*steps, trades=people, bookings=(booking("b", at, "plumber"),)), one("x", by="you")))
    assert plans.of("a").step("bath/u/b").start == moment(at)
    assert (plans.of("a").cushions_used, plans.of("a").released) == (used, ())
