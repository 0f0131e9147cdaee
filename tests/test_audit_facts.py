"""The audit obeys what was told, by itself: from the facts, the files and the times."""

from __future__ import annotations

from dataclasses import replace

import pytest
from facts_told import told
from tiny_jobs import broken, job, moment, named, order, room, step, times, trade, wait

from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.told import Told
from sequencer.terms.with_facts import with_facts

DRY = room("bath", at_once=2, already=named("dry"))
LOOK = trade("inspector", "9-15", hour_known=False)
PLAN = {"a": "Mon 8-9", "b": "Mon 9-10"}


def with_told(of: Job, *facts: Fact) -> Job:
    return with_facts(of, facts)


AB = job(step("a"), step("b", by="tiler", after="a"))
DONE = told("done a", at="Mon 9")
TUESDAY = told("note now", at="Tue 8", number=9)
DELIVERED = told("delivered tiles", at="Mon 8", number=5)
OF_TILES = replace(order("b", arrives="Mon 8"), ordered=moment("Mon 0"))
WITH_TILES = replace(AB, orders=(OF_TILES,))
HOLD = job(step("a", by="inspector", kind="hold"), step("b", after="a"), trades=[LOOK])
DAMP = job(step("a", waits=[wait("next", 24)]), step("b", after="a ready for next"))
TOLD = replace(AB, told=Told(1, moment("Mon 10"), {"bath/u/a": times({"a": "Mon 8-9"}).pieces["bath/u/a"]}))


ROWS = [
    (with_told(AB, DONE), {"a": "Mon 8-9", "b": "Mon 9-10"}, None),
    (with_told(AB, DONE), {"a": "Mon 8-10", "b": "Mon 10-11"}, "a does not end when it was told to have ended"),
    (
        with_told(AB, told("began a", at="Mon 8"), told("done a", at="Mon 9", number=2)),
        {"a": "Mon 8:30-9", "b": "Mon 9-10"},
        "a does not begin when it was told to have begun",
    ),
    (with_told(AB, told("done a", at="Mon 19")), {"a": "Mon 18-19", "b": "Tue 8-9"}, None),
    (with_told(AB, told("done b", at="Mon 9")), {"a": "Mon 13-14", "b": "Mon 8-9"}, None),
    (
        with_told(AB, TUESDAY),
        {"a": "Tue 8-9", "b": "Mon 9-10"},
        "b is taken to have begun before bath/u/a was ready",
    ),
    (
        with_told(HOLD, told("note now", at="Mon 16")),
        {"a": "Mon 9-15", "b": "Tue 8-9"},
        "a is taken to have passed, and nobody told so",
    ),
    (with_told(HOLD, told("passed a", at="Mon 11")), {"a": "Mon 9-11", "b": "Mon 11-12"}, None),
    (
        with_told(WITH_TILES, TUESDAY),
        {"a": "Mon 8-9", "b": "Mon 9-10"},
        "b is taken to have begun, and nobody saw its tiles",
    ),
    (with_told(WITH_TILES, DELIVERED, TUESDAY), {"a": "Mon 8-9", "b": "Mon 9-10"}, None),
    (
        with_told(DAMP, replace(TUESDAY, happened=moment("Wed 8"))),
        {"a": "Mon 8-9", "b": "Mon 14-15"},
        "b is taken to have begun before bath/u/a was ready",
    ),
    (with_told(DAMP, told("done a", at="Mon 9")), {"a": "Mon 8-9", "b": "Tue 9-10"}, None),
    (
        with_told(DAMP, told("done a", at="Mon 9")),
        {"a": "Mon 8-9", "b": "Tue 8-9"},
        "b starts before bath/u/a is ready for next",
    ),
    (
        with_told(TOLD, TUESDAY),
        {"a": "Mon 9-10", "b": "Tue 8-9"},
        "a is taken to have happened at another time than people were told",
    ),
]  # fmt: skip
"""A job with facts, a plan of it, and what the audit says of that plan's steps in the bath; None: nothing."""

SAID = [f"bath/u/{says}" for _, _, says in ROWS if says]


@pytest.mark.parametrize(("of", "plan", "says"), ROWS)
def test_a_plan_is_held_against_what_was_told(of: Job, plan: dict[str, str], says: str | None) -> None:
    assert broken(of, times(plan)) == ((f"bath/u/{says}",) if says else ())


def test_two_steps_that_have_begun_break_no_rule_together_and_one_to_come_does() -> None:
    of = with_told(job(step("a", on="floor"), step("b", on="floor", by="tiler")), told("done a", at="Mon 9"))
    both = with_told(of, told("done b", at="Mon 9", number=2))
    overlapping = {"a": "Mon 8-9", "b": "Mon 8-9"}
    assert broken(both, times(overlapping)) == ()
    assert broken(of, times({"a": "Mon 8-9", "b": "Mon 9-10"})) == ()
    began = with_told(job(step("a", 120, on="floor"), step("b", on="floor", by="tiler")), told("began a", at="Mon 8"))
    assert set(broken(began, times({"a": "Mon 8-10", "b": "Mon 9-10"}))) == {
        "bath/u/a and bath/u/b meet on a surface that is closed to one of them",
        "bath/u/a, bath/u/b are in the bath at once",
    }


def test_nobody_takes_back_what_a_step_under_way_still_needs() -> None:
    of = job(step("a", 240, needs="dry"), step("x/cut", takes_back="dry", gives="dry"), rooms=[DRY], weeks=2)
    began = with_told(of, told("began a", at="Mon 8"))
    plan = {"a": "Mon 8-12", "x/cut": "Mon 9-10"}
    assert "bath/u/a needs dry while bath/x/cut has taken it back" in broken(began, times(plan))


def test_who_is_asked_is_asked_in_time_and_who_is_not_needs_notice_from_now() -> None:
    plumber = trade("plumber", notice_days=2, notice_words="2 working days", earliest=moment("Wed 0"))
    of = job(step("a"), step("b", by="plumber"), trades=[plumber])
    soon = times({"a": "Mon 8-9", "b": "Wed 8-9"})
    late = told("done a", at="Mon 9")
    assert broken(with_told(of, late), soon) == ()
    later = with_told(of, late, TUESDAY)
    assert broken(later, soon) == ("bath/u/b comes sooner than the notice of plumber allows",)
    assert broken(with_told(of, told("asked b", at="Mon 8", number=3), late, TUESDAY), soon) == ()


def test_a_layer_nobody_can_follow_in_time_any_more_is_followed_late() -> None:
    lay = step("a", waits=[wait("next", 1, within_minutes=240)])
    of = job(lay, step("b", 180, one_go=True, after="a ready for next"))
    met = with_told(of, told("done a", at="Mon 11"))
    late = {"a": "Mon 10-11", "b": "Tue 8-11"}
    assert broken(met, times(late)) == ("bath/u/b starts too late after bath/u/a",)
    missed = with_told(of, told("done a", at="Mon 11"), told("note now", at="Mon 14", number=2))
    assert broken(missed, times(late)) == ()
