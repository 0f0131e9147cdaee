"""Wet layers wet their room, and warmth that costs time: from the files to the plan, its audit and its warnings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from test_planning_air import faults
from tiny_folder import TODAY, folder, of_lay, planned
from tiny_jobs import air, broken, job, limit, room, step, times
from tiny_jobs import wait as wait_of
from waits_air import START, air_of, steady, wait

from sequencer.audit.slow_damp import WetAir
from sequencer.audit.slow_wait import ready
from sequencer.files import read_job, read_recipe_library
from sequencer.files.damp_text import parse_air_changes, parse_dryer, parse_flow
from sequencer.files.wrong import Wrong
from sequencer.planning import NoOrderFits
from sequencer.terms.place import Faulty
from sequencer.views.foot import foot_of
from sequencer.waits.clock import wait_clock
from sequencer.waits.wetting import WetRoom, wetted

DRIES = "after 17 h at 21 C 50 %, joint compound law"
WATER = "    water: 0.5 kg/m2 until ready for finish (c)\n"
AIR = "18 C 60 %"


def test_a_wet_layer_takes_longer_in_the_air_it_makes(tmp_path: Path) -> None:
    """2 kg from 4 m2 of floor into 10 m3."""
    dry = of_lay(planned(tmp_path, AIR, wait=DRIES))
    wet = of_lay(planned(tmp_path, AIR, wait=DRIES, lay=WATER))
    assert dry.hours < wet.hours
    assert "in air its own water makes damp" in wet.working
    room = WetRoom(2.0, 10.0, 0.5)
    drying = wait("joint compound", 17.0, at=21.0)
    expected = wait_clock(drying, wetted(drying, steady(18.0, 0.6), room))
    assert wet.hours == pytest.approx(expected.hours(START), abs=0.02)


def test_the_plan_warns_of_the_damp_room_and_says_what_would_help(tmp_path: Path) -> None:
    plan = planned(tmp_path, AIR, wait=DRIES, lay=WATER)
    (warning,) = plan.warnings
    assert warning.startswith("lay: 2.0 kg of water dry into 10 m3: the room stands above 85 % for ")
    assert " or a dehumidifier of " in warning
    assert "bath: 0.5 air changes an hour, for what its layers give off" in plan.assumed
    assert [section.texts for section in foot_of(plan) if section.name == "air"] == [(warning,)]


@pytest.mark.parametrize("help", ["air changes: 8 per hour", "fan: 80 m3/h", "dehumidifier: 60 litres a day"])
def test_what_takes_the_water_out_shortens_the_wait_and_ends_the_warning(tmp_path: Path, help: str) -> None:
    wet = planned(tmp_path, AIR, wait=DRIES, lay=WATER)
    helped = planned(tmp_path, AIR, wait=DRIES, lay=WATER, room=f"    {help}\n")
    assert of_lay(helped).hours < of_lay(wet).hours
    assert helped.warnings == ()
    assert helped.finish <= wet.finish


def test_a_room_without_a_size_is_not_wetted_and_the_plan_says_so(tmp_path: Path) -> None:
    path = folder(tmp_path, AIR, wait=DRIES, lay=WATER)
    text = (path / "job.yaml").read_text().replace("size: 2 m by 2 m, 2.5 m high", "areas: {floor: 4 m2}")
    (path / "job.yaml").write_text(text)
    assert "bath: without its size, no layer is taken to wet its air" in read_job(path, TODAY).assumed


@pytest.mark.parametrize(
    ("lay", "wait", "told"),
    [
        (WATER.replace("finish", "paint"), DRIES, '"lay" has no wait until it is ready for "paint"'),
        (WATER, "after 24 h, sealant law", 'does not give off its water evenly until "finish"'),
        (WATER, f"{DRIES}, then 2 h, fixed", 'does not give off its water evenly until "finish"'),
        ("    water: 0.5 litres until ready for finish (c)\n", DRIES, "is no water of a layer"),
        ("    water: 0.5 kg/m2 (c)\n", DRIES, "is no water of a layer"),
    ],
)
def test_water_that_cannot_leave_is_told_at_its_place(tmp_path: Path, lay: str, wait: str, told: str) -> None:
    found = faults_of_recipe(folder(tmp_path, AIR, wait=wait, lay=lay))
    assert any(told in fault for fault in found)


def faults_of_recipe(path: Path) -> list[str]:
    with pytest.raises(Faulty) as raised:
        read_job(path, TODAY)
    return [str(fault) for fault in raised.value.faults]


def test_a_fan_that_is_no_flow_is_told(tmp_path: Path) -> None:
    (fault,) = faults(folder(tmp_path, AIR, room="    fan: strong\n"))
    assert '"strong" is no flow of air; write 60 m3/h or 35 cfm' in fault


@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (parse_air_changes, "0.5 per hour", 0.5),
        (parse_flow, "60 m3/h", 60.0),
        (parse_flow, "35 cfm", 59.46),
        (parse_dryer, "12 litres a day", 0.5),
        (parse_dryer, "20 pints per day", 20 * 0.473176 / 24),
    ],
)
def test_what_moves_air_and_water_is_read_in_both_systems(
    parse: Callable[[str], float], text: str, value: float
) -> None:
    assert parse(text) == pytest.approx(value, rel=1e-4)
    with pytest.raises(Wrong):
        parse(f"{text} or so")


@settings(max_examples=20, deadline=None)
@given(
    st.lists(st.tuples(st.integers(5, 30), st.integers(20, 95)), min_size=2, max_size=24),
    st.floats(0.1, 8), st.floats(0.1, 6), st.floats(0, 0.5), st.integers(0, 600),
)  # fmt: skip
def test_the_audit_finds_the_same_damp_air_and_the_same_minute(
    hours: list[tuple[int, int]], water: float, changes: float, dryer: float, after: int
) -> None:
    drying, room = wait("joint compound", 17.0, at=21.0), WetRoom(water, 12.0, changes, dryer)
    air = air_of([float(warm) for warm, _ in hours] + [20.0], [damp / 100 for _, damp in hours] + [0.5])
    there, slow = wetted(drying, air, room), WetAir(drying, air, room)
    assert [slow.at(START + 60 * n).humidity for n in range(len(hours))] == pytest.approx(there.humidity[:-1].tolist())
    assert bool(np.all(there.humidity >= air.humidity))
    end = START + after
    assert ready(drying, slow, end) == wait_clock(drying, there).ready(np.array([end], np.int64))[0]


POLISHED = "after 14 h at 20 C, within 5 h of ready, cement law"


def test_warmth_that_takes_the_next_steps_start_away_is_said(tmp_path: Path) -> None:
    """Laid by 14:00 in 24 C, it is ready at 1:20 and too late at 6:20; laid by 16:00, just not too late at 8:00."""
    warm = planned(tmp_path, "24 C 50 %", wait=POLISHED)
    (warning,) = warm.warnings
    assert warning.startswith("lay could go in sooner, but not finish after it: in this air it is ready after ")
    assert warning.endswith(", when somebody does")
    assert warm.step("bath/bed/lay").start > warm.step("bath/bed/frame").end


def test_a_plan_that_loses_nothing_to_warmth_says_nothing_of_it(tmp_path: Path) -> None:
    assert planned(tmp_path, "17 C 50 %", wait="after 12 h at 20 C, within 9 h of ready, cement law").warnings == ()


def test_every_recipe_that_is_shipped_can_still_be_read() -> None:
    assert read_recipe_library()


def test_a_layer_that_its_own_water_would_spoil_is_not_begun_until_a_fan_runs(tmp_path: Path) -> None:
    spoilt = f"{DRIES}, spoils above 85 %"
    with pytest.raises(NoOrderFits):
        planned(tmp_path, AIR, wait=spoilt, lay=WATER)
    assert planned(tmp_path, AIR, wait=spoilt).steps
    assert planned(tmp_path, AIR, wait=spoilt, lay=WATER, room="    fan: 80 m3/h\n").steps


def test_the_audit_sees_a_layer_spoilt_and_a_step_too_soon_in_the_air_the_layer_makes() -> None:
    drying = wait_of("paint", 17.0, limit("spoils", dampest=0.85), law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    layer = step("a", waits=[drying], water=2.0, dries_for="paint")
    after = step("b", after="a ready for paint")
    plan = times({"a": "Mon 8-9", "b": "Tue 9-10"})
    said = broken(job(layer, after, rooms=[room_of_ten]), plan)
    assert said == (
        "bath/u/b starts before bath/u/a is ready for paint",
        "bath/u/a is spoilt by the air before it is ready for paint",
    )
    assert broken(job(replace(layer, water=0.0), after, rooms=[room_of_ten]), plan) == ()
