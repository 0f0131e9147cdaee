"""What a plan says of the day it is looked at."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from sequencer.planning import plan_for
from sequencer.views.diary import diary
from sequencer.views.on_site.today import OnTheDay, today
from sequencer.views.plain import plain_diary
from sequencer.views.wide import wide_diary
from sequencer.writeup.write import NOTHING_RECORDED

DEMO = Path(__file__).parent.parent / "docs" / "demo"


def test_a_plan_looked_at_before_the_start_assumes_nothing_of_the_past() -> None:
    assert NOTHING_RECORDED not in plan_for(DEMO, date(2027, 1, 25), effort=0).assumed


def test_a_plan_looked_at_after_the_start_says_that_nothing_is_recorded_and_stays_the_same_plan() -> None:
    before, after = plan_for(DEMO, date(2027, 2, 1), effort=0), plan_for(DEMO, date(2027, 3, 2), effort=0)
    assert NOTHING_RECORDED in after.assumed
    first = "PLAN OF THE START DAY, Mon 1 February: nothing is recorded since."
    nothing = OnTheDay((), (), ())
    for told in (diary(after), wide_diary(after), plain_diary(after), today(after, date(2027, 3, 2), nothing)):
        assert told.splitlines()[0] == first
    for told in (diary(before), plain_diary(before), today(before, date(2027, 2, 1), nothing)):
        assert first not in told
    assert [(step.id, step.start) for step in after.steps] == [(step.id, step.start) for step in before.steps]
