"""May this be done now: yes or no, until when, and why; and what fills a waiting hour."""

from __future__ import annotations

from dataclasses import replace

import pytest
from planned_jobs import day, planned
from tiny_jobs import ident, job, keep_off, leave, moment, order, step, trade, wait

from sequencer.answers.on_site.may import May, may_start, may_use
from sequencer.answers.on_site.waiting_hour import WaitingHour, waiting_hours
from sequencer.planning import timed
from sequencer.terms.job import Job

LONG = step("hall/u/long", 48 * 60, by="carpenter")
SCREED = step("lay", 120, on="floor", closing=keep_off("foot"), waits=[wait("foot", 20), wait("tile", 40)])
TILE = step("tile", 240, on="floor", after="lay ready for tile")
"""Laid Monday 8 to 10, to be walked on Tuesday 6:00, tiled from Wednesday 2:00 on: planned for Wednesday 8:00."""


def may(of: Job, words: str, at: str) -> May:
    whole, plan = planned(of)
    return may_start(timed(whole, plan), plan, ident(words), moment(at), day(at.split()[0]))


def reasons(answer: May) -> list[tuple[str | None, int | None]]:
    return [(reason.by, reason.until) for reason in answer.reasons]


def test_a_layer_that_is_not_ready_says_no_until_it_is() -> None:
    answer = may(job(SCREED, TILE, LONG), "tile", "Tue 9")
    assert not answer.yes
    assert ("bath/u/lay", moment("Wed 2")) in reasons(answer)
    assert answer.again == moment("Wed 8")


def test_what_is_ready_may_go_in_and_until_when() -> None:
    answer = may(job(SCREED, TILE, LONG), "tile", "Wed 9")
    assert answer.yes and answer.until == moment("Wed 15:59") and answer.moves is None


def test_nobody_works_in_the_break_or_at_night() -> None:
    at_noon = may(job(SCREED, TILE, LONG), "tile", "Wed 12:30")
    assert not at_noon.yes and at_noon.again == moment("Wed 13")
    at_night = may(job(SCREED, TILE, LONG), "tile", "Wed 20")
    assert not at_night.yes and at_night.again == moment("Thu 8")


def test_what_comes_too_late_is_not_helped_by_waiting() -> None:
    layer = step("a", 60, waits=[wait("b", 0.5, within_minutes=120)])
    answer = may(job(layer, step("b", 60, after="a ready for b"), LONG), "b", "Mon 13")
    assert not answer.yes and answer.again is None
    assert reasons(answer) == [("bath/u/a", None)]


def test_material_that_is_not_on_site_is_waited_for() -> None:
    answer = may(job(step("a", 60), LONG, orders=(order("a", "Wed 0"),)), "a", "Mon 9")
    assert not answer.yes and answer.again == moment("Wed 8")
    assert "not on site before" in answer.reasons[0].text


def test_with_a_yes_it_is_said_what_then_loses_its_day() -> None:
    one_go = step("b", 6 * 60, after="a ready for b", one_go=True)
    answer = may(job(step("a", 60, waits=[wait("b", 23)]), one_go, LONG), "a", "Mon 10")
    assert answer.yes and answer.moves == "bath/u/b"


@pytest.mark.parametrize(
    ("purpose", "surface", "at", "yes", "then"),
    [
        ("foot", "floor", "Mon 9", False, "Tue 6"),
        ("foot", "floor", "Tue 5:59", False, "Tue 6"),
        ("foot", "floor", "Tue 6", True, ""),
        ("foot", "ceiling", "Mon 9", True, ""),
        ("load", "floor", "Mon 9", True, ""),
    ],
)
def test_a_surface_bears_what_its_layers_are_ready_for(
    purpose: str, surface: str, at: str, yes: bool, then: str
) -> None:
    _, plan = planned(job(SCREED, TILE, LONG))
    answer = may_use(plan, purpose, (surface,), moment(at))
    assert answer.yes == yes
    assert answer.again == (moment(then) if then else None)


def test_before_a_layer_is_begun_it_asks_nothing_and_says_when_it_will() -> None:
    _, plan = planned(job(step("first", 120, on="ceiling"), SCREED, LONG))
    at = plan.step(ident("lay")).start
    assert may_use(plan, "foot", ("floor",), at - 60) == May(at - 60, True, until=at)


def filled(of: Job, words: str) -> dict[tuple[int, int], list[tuple[str, bool]]]:
    whole, plan = planned(of)
    hours: tuple[WaitingHour, ...] = waiting_hours(whole, plan, day(words), lambda: timed(whole, plan))
    return {(hour.start, hour.end): [(one.step, one.whole) for one in hour.fillers] for hour in hours}


WAITS = (step("a", 60, on="floor", waits=[wait("b", 4)]), step("b", 120, on="floor", after="a ready for b"))
AFTER_IT = step("yard/u/long", 48 * 60, by="carpenter", after="b")
"""Work until 9, then four hours to stand; b is urgent, for days of work wait for it."""


def test_a_waiting_hour_is_filled_with_work_elsewhere_that_is_begun_and_left() -> None:
    """Six hours in the hall fit nowhere in one piece before the next day."""
    found = filled(job(*WAITS, AFTER_IT, step("hall/u/six", 6 * 60, on="floor")), "Mon")
    assert found[moment("Mon 9"), moment("Mon 12")] == [("hall/u/six", False)]


def test_what_is_done_in_one_go_is_not_begun_and_left() -> None:
    found = filled(job(*WAITS, AFTER_IT, step("hall/u/six", 6 * 60, on="floor", one_go=True)), "Mon")
    assert found[moment("Mon 9"), moment("Mon 12")] == []


def test_what_was_put_off_comes_back_whole() -> None:
    whole, plan = planned(job(*WAITS, AFTER_IT, step("hall/u/short", 60, on="floor")))
    start, end = moment("Tue 9"), moment("Tue 10")
    later = [
        replace(one, start=start, end=end, pieces=((start, end),)) if one.id == "hall/u/short" else one
        for one in plan.steps
    ]
    put_off = replace(plan, steps=tuple(later))
    hours = waiting_hours(whole, put_off, day("Mon"), lambda: timed(whole, put_off))
    assert [(one.step, one.start, one.whole) for one in hours[0].fillers] == [("hall/u/short", moment("Mon 9"), True)]


def test_nothing_fills_a_waiting_hour_where_all_wait_for_the_same_layer() -> None:
    found = filled(job(SCREED, TILE, LONG), "Tue")
    assert set(found) == {(moment("Tue 8"), moment("Tue 12")), (moment("Tue 13"), moment("Tue 16"))}
    assert not any(found.values())


def test_a_closed_surface_is_no_place_to_begin_on() -> None:
    closed = step("coat", 60, on="ceiling", closing=leave("paint"), waits=[wait("paint", 20)])
    paint = step("paint", 60, on="ceiling", after="coat ready for paint")
    other = step("hall/u/x", 60, after="paint", on="floor")
    assert not any(filled(job(closed, paint, other), "Mon").values())


def test_who_is_elsewhere_has_no_waiting_hour_here() -> None:
    away = trade("you", days="Tue Wed")
    assert filled(job(step("a", 60), LONG, trades=[away]), "Mon") == {}
