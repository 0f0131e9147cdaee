"""Whom to call by when, counted back from a visit, and when its day is nearly certain; how far a visit is arranged."""

from __future__ import annotations

from dataclasses import replace

import pytest
from planned_jobs import planned, whole
from tiny_jobs import HERE, booking, job, moment, order, step, trade, wait

from sequencer.answers.on_site.calls import Call, calls
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute
from sequencer.terms.past import Asked, Past
from sequencer.writeup.visit_state import visit_state

FAR = step("a", 60, waits=[wait("b", 24 * 23)])
PLUMBING = step("b", 120, by="plumber", after="a ready for b")
"""Work on Monday 2 March, ready Wednesday 25 March 9:00: the plumber comes then, in the fourth week."""


def call(of: Job, now: str = "Mon 0") -> Call:
    made, plan = planned(of)
    return calls(made, plan, moment(now))[0]


def ends(words: str) -> Minute:
    """The midnight after a day."""
    return moment(f"{words} 0") + DAY


def test_a_visit_is_asked_for_two_weeks_before_settled_a_week_before_and_reminded_the_day_before() -> None:
    found = call(job(FAR, PLUMBING, weeks=6))
    assert found.visit.start == moment("Wed4 9")
    assert (found.about, found.by, found.notice) == ("ask", ends("Wed2"), False)
    assert found.when == {"ask": ends("Wed2"), "settle": ends("Wed3"), "remind": ends("Tue4")}


def test_a_notice_longer_than_two_weeks_comes_first() -> None:
    plumber = trade("plumber", weeks=6, notice_days=15, earliest=moment("Mon4 0"))
    found = call(job(FAR, PLUMBING, trades=[plumber], weeks=6))
    assert (found.by, found.notice) == (ends("Wed"), True)


@pytest.mark.parametrize(("state", "about"), [("asked", "settle"), ("firm", "remind")])
def test_the_next_call_goes_by_how_far_the_visit_is_arranged(state: str, about: str) -> None:
    of = job(FAR, PLUMBING, weeks=6, bookings=(booking("b", "Wed4 9", "plumber"),) if state == "firm" else ())
    if state == "asked":
        of = replace(of, asked={"bath/u/b": Asked(moment("Mon 0"), None)})
    found = call(of)
    assert (found.visit.state, found.about) == (state, about)


def unsure(*steps: object, **more: object) -> list[tuple[str, str]]:
    """What keeps the plumber's day from being sure."""
    made, plan = planned(job(*steps, weeks=6, **more))  # type: ignore[arg-type]
    plumber = next(one for one in calls(made, plan, moment("Mon 0")) if one.visit.trade == "plumber")
    return [(one.id, one.why) for one in plumber.unsure]


def test_own_work_in_front_is_counted_as_certain() -> None:
    assert unsure(step("a", 60), step("b", 60, by="plumber", after="a")) == []


PLUMBER = step("b", 60, by="plumber", after="a")


def test_a_visit_in_front_that_is_only_pencilled_is_not() -> None:
    found = unsure(step("a", 60, by="electrician"), PLUMBER, bookings=(booking("b", "Tue 8", "plumber"),))
    assert found == [("bath/u/a", "electrician is pencilled only")]


def test_a_firm_visit_in_front_is() -> None:
    firm = (booking("a", "Mon 8", "electrician"), booking("b", "Tue 8", "plumber"))
    assert unsure(step("a", 60, by="electrician"), PLUMBER, bookings=firm) == []


def test_an_inspection_still_to_pass_is_not() -> None:
    inspector = trade("inspector", "9-15", weeks=6, hour_known=False)
    found = unsure(step("a", 0, by="inspector", kind="hold"), PLUMBER, trades=[inspector])
    assert found == [("bath/u/a", "has to pass first")]


def test_material_that_is_not_ordered_is_not() -> None:
    assert unsure(replace(PLUMBER, links=()), orders=(order("b", "Wed 0", lead=2),)) == [("tiles", "not ordered yet")]


def test_work_done_long_before_does_not_count() -> None:
    """The electrician has been three weeks before: the days in front of the visit do not hang on him."""
    assert unsure(step("a", 60, by="electrician", waits=[wait("b", 24 * 23)]), PLUMBING) == []


def test_a_visit_is_pencilled_asked_firm_done_or_released() -> None:
    of = whole(job(step("b", 60, by="plumber")))
    firm = replace(of, bookings=(booking("b", "Tue 8", "plumber"),))
    released = Fact(1, "released", "bath/u/b", moment("Mon 9"), moment("Mon 9"), "", HERE)
    states = {
        "pencilled": of,
        "asked": replace(of, asked={"bath/u/b": Asked(moment("Mon 9"), None)}),
        "firm": firm,
        "done": replace(firm, past={"bath/u/b": Past(((moment("Mon 8"), moment("Mon 9")),), "done")}),
        "released": replace(of, facts=(released,)),
    }
    assert {state: visit_state(one, ("bath/u/b",)) for state, one in states.items()} == {s: s for s in states}
    asked_again = replace(states["asked"], facts=(released,))
    assert visit_state(asked_again, ("bath/u/b",)) == "asked"
