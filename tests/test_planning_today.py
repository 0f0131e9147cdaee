"""What a plan says of the day it is looked at."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from sequencer.planning import plan_for
from sequencer.writeup.write import NOTHING_RECORDED

DEMO = Path(__file__).parent.parent / "docs" / "demo"


def test_a_plan_looked_at_before_the_start_assumes_nothing_of_the_past() -> None:
    assert NOTHING_RECORDED not in plan_for(DEMO, date(2027, 1, 25), effort=0).assumed


def test_a_plan_looked_at_after_the_start_says_that_nothing_is_recorded_and_stays_the_same_plan() -> None:
    before, after = plan_for(DEMO, date(2027, 2, 1), effort=0), plan_for(DEMO, date(2027, 3, 2), effort=0)
    assert NOTHING_RECORDED in after.assumed
    assert [(step.id, step.start) for step in after.steps] == [(step.id, step.start) for step in before.steps]
