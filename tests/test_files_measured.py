"""Readings of a layer, from the job file to the plan and its audit."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from audit_row import Row
from tiny_folder import TODAY, folder, of_lay
from tiny_jobs import HERE, job, moment, step, wait

from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import plan_for
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Faulty
from sequencer.terms.wait import Measured

FRIDAY = date(2026, 3, 6)


def planned(tmp_path: Path, readings: str, wait: str = "after 24 h, cement law") -> Plan:
    """The plan of a bed of mortar laid by Monday 14:00 at 20 C, planned on Friday with these readings."""
    return plan_for(folder(tmp_path, "20 C 50 %", wait=wait, more=f"measured: {readings}\n"), FRIDAY)


def faults(tmp_path: Path, readings: str) -> list[str]:
    with pytest.raises(Faulty) as raised:
        read_job(folder(tmp_path, "20 C 50 %", more=f"measured: {readings}\n"), FRIDAY)
    return [str(fault) for fault in raised.value.faults]


def test_a_reading_lets_the_next_step_start_at_its_moment(tmp_path: Path) -> None:
    without = planned(tmp_path, "[]")
    early = planned(tmp_path, "bed lay ready for finish, Tue 3 March 9:00, 84 %")
    assert early.step("bath/bed/lay").end == without.step("bath/bed/lay").end
    assert of_lay(early).at == early.step("bath/bed/finish").start == without.start + 33 * HOUR
    assert of_lay(early).working.endswith("ready by a reading of 84 % after 19 h")
    assert without.step("bath/bed/finish").start > early.step("bath/bed/finish").start


def test_a_reading_that_is_not_ready_keeps_the_next_step_away(tmp_path: Path) -> None:
    late = planned(tmp_path, "bath bed lay not ready for finish, Wed 4 March 2 pm")
    assert late.step("bath/bed/finish").start >= late.start + 62 * HOUR


def test_the_newest_reading_counts(tmp_path: Path) -> None:
    lines = "\n  - bed lay ready for finish, Wed 4 March 10:00\n  - bed lay not ready for finish, Tue 3 March 10:00"
    assert of_lay(planned(tmp_path, lines)).hours == 44.0


def test_no_reading_undercuts_a_floor(tmp_path: Path) -> None:
    kept = planned(tmp_path, "bed lay ready for finish, Mon 2 March 18:00", "after 30 h, cement law, never under 24 h")
    assert of_lay(kept).hours == 24.0


@pytest.mark.parametrize(
    ("reading", "told"),
    [
        ("bed lay, Tue 3 March 9:00", "is no reading of a layer"),
        ("bed laid ready for finish, Tue 3 March 9:00", '"laid" is no step of "bed"'),
        ("bed lay ready for finnish, Tue 3 March 9:00", 'does not wait to be ready for "finnish"; write "finish"'),
        ("bed frame ready for finish, Tue 3 March 9:00", 'does not wait to be ready for "finish"; name the step'),
        ("bed lay ready for finish, Sat 7 March 9:00", "this reading lies in the future"),
    ],
)
def test_a_reading_that_meets_nothing_is_told_at_its_place(tmp_path: Path, reading: str, told: str) -> None:
    (fault,) = faults(tmp_path, reading)
    assert told in fault
    assert fault.startswith("job.yaml:")


def test_the_audit_obeys_readings() -> None:
    read = [wait("next", 24, measured=Measured(moment("Mon 20"), True, "", HERE))]
    early = Row(
        job(step("a", waits=read), step("b", after="a ready for next")),
        {"a": "Mon 8-9", "b": "Tue 8-9"}, {"b": "Mon 15-16"}, ("bath/u/b starts before bath/u/a is ready for next",),
    )  # fmt: skip
    assert (early.before(), early.after()) == ((), early.says)
    not_yet = [wait("next", 4, measured=Measured(moment("Tue 10"), False, "", HERE))]
    late = Row(
        job(step("a", waits=not_yet), step("b", after="a ready for next")),
        {"a": "Mon 8-9", "b": "Tue 10-11"}, {"b": "Tue 8-9"}, ("bath/u/b starts before bath/u/a is ready for next",),
    )  # fmt: skip
    assert (late.before(), late.after()) == ((), late.says)


def test_the_day_of_these_tests_is_a_monday() -> None:
    assert TODAY.weekday() == 0
