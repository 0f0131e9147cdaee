"""A cure under way: how far it is by measured air, when it is expected to be over, what the readings changed."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from tiny_folder import folder

from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import plan_for, plan_of
from sequencer.terms.minute import HOUR
from sequencer.terms.told import Told
from sequencer.views.as_json import plan_as_json
from sequencer.views.foot import foot_of
from sequencer.views.when import when

TUESDAY, WEDNESDAY = date(2026, 3, 3), date(2026, 3, 4)
WAIT = "after 48 h, cement law"
COLD = "time,temperature C,humidity %\n" + "".join(f"2026-03-02 {hour:02}:30,10,50\n" for hour in range(24))


def planned(tmp_path: Path, today: date, readings: bool = False, wait: str = WAIT) -> Plan:
    air = "\n  readings: logger.csv\n  said: 20 C 50 %" if readings else "20 C 50 %"
    return plan_for(folder(tmp_path, air, wait=wait, files={"logger.csv": COLD}), today)


def test_by_the_air_as_said_a_share_of_the_wait_is_over(tmp_path: Path) -> None:
    """Laid by Monday 14:00; on Tuesday at 0:00 ten of 48 hours are over."""
    plan = planned(tmp_path, TUESDAY)
    (one,) = plan.under_way
    assert (one.step, one.purpose, one.so_far, one.read, one.ready_as_said) == ("bath/bed/lay", "finish", 10.0, 0, None)
    assert one.share == pytest.approx(10 / 48)
    assert one.ready == plan.start + (14 + 48) * HOUR


def test_measured_cold_holds_a_cure_up_and_the_plan_says_by_how_much(tmp_path: Path) -> None:
    """Read at 10 C until Tuesday noon (a reading stands 12 h): 22 h at the factor 0.560 (computed), then 20 C."""
    plan = planned(tmp_path, TUESDAY, readings=True)
    (one,) = plan.under_way
    assert (one.so_far, one.read) == (10.0, 10)
    assert one.share == pytest.approx(10 * 0.560 / 48, abs=1e-3)
    assert one.ready_as_said == plan.start + (14 + 48) * HOUR
    assert one.ready - one.ready_as_said == pytest.approx(22 * (1 - 0.560) * HOUR, abs=35)
    lines = {section.name: section.texts for section in foot_of(plan)}["under way, if all went to plan"]
    assert lines[0].startswith("lay: 11 % of the way, ready for finish Wed 4 March 23:41 as expected today")
    assert "; 10 of its 10 h so far by a meter, 9 h 41 min " in lines[0]
    assert lines[0].endswith("later than by the air as it was said")


def test_a_moment_later_the_share_has_grown_and_after_ready_nothing_is_under_way(tmp_path: Path) -> None:
    shares = [planned(tmp_path, day).under_way[0].share for day in (TUESDAY, WEDNESDAY)]
    assert shares[0] < shares[1] < 1.0
    assert planned(tmp_path, date(2026, 3, 5)).under_way == ()
    assert planned(tmp_path, date(2026, 3, 2)).under_way == ()


def test_when_and_json_tell_the_same(tmp_path: Path) -> None:
    plan = planned(tmp_path, TUESDAY)
    told_when = " ".join(when(plan, list(plan.steps)).split())
    assert "under way: 20 % of the way, ready for finish Wed 4 March 14:00" in told_when
    (told,) = json.loads(plan_as_json(plan))["under_way"]
    assert told == {
        "step": "bath/bed/lay",
        "for": "finish",
        "share": 0.208,
        "ready": "2026-03-04T14:00:00+00:00",
        "hours_so_far": 10.0,
        "hours_read": 0,
        "ready_as_said": None,
        "ready_as_told": None,
    }


def test_against_the_plan_people_were_told_a_cure_is_as_late_as_its_work_ended_late(tmp_path: Path) -> None:
    """Told to be laid by Monday 11:00, laid by 14:00: the readings cost 9 h 41 min, the work 3 h more."""
    planned(tmp_path, TUESDAY, readings=True)
    job = read_job(tmp_path, TUESDAY)
    made = {step.id: step.pieces for step in plan_of(job).steps}
    lay = made["bath/bed/lay"]
    told = Told(1, 0, {**made, "bath/bed/lay": ((lay[0][0] - 180, lay[0][1] - 180),)})
    (one,) = plan_of(replace(job, told=told)).under_way
    assert one.ready_as_said is not None
    assert one.ready_as_told == one.ready_as_said - 180
