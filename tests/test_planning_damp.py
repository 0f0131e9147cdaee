"""Wet layers wet their room, and warmth that costs time: from the files to the plan, its audit and its warnings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from brute_force import shortest
from drawn_jobs import cut_after
from hypothesis import given, settings
from hypothesis import strategies as st
from test_answers_why import job as titled
from test_planning_air import faults
from tiny_folder import TODAY, folder, of_lay, planned
from tiny_jobs import HERE, air, broken, case_of, job, limit, moment, room, step, times
from tiny_jobs import wait as wait_of
from waits_air import START, steady, wait

from sequencer import planning
from sequencer.audit import Times
from sequencer.audit.site import Site
from sequencer.files import read_job, read_recipe_library
from sequencer.files.damp_text import parse_air_changes, parse_dryer, parse_flow
from sequencer.files.wrong import Wrong
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.drying import as_they_dry, moved_by_others
from sequencer.network.model import HAND_OVER, AllowedStarts
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, airs, plan_for, plan_of
from sequencer.settling import ends, in_own_air
from sequencer.solve import Answer, solve
from sequencer.terms.air import AirSaid, AirStatement
from sequencer.terms.place import Faulty
from sequencer.views.foot import foot_of
from sequencer.views.when import steps_named, when
from sequencer.waits.clock import wait_clock
from sequencer.waits.wetting import Layer, WetRoom, drying, wetted

DRIES = "after 17 h at 21 C 50 %, joint compound law"
WATER = "    water: 0.5 kg/m2 until ready for finish (c)\n"
AIR = "18 C 60 %"


def test_a_wet_layer_takes_longer_in_the_air_it_makes(tmp_path: Path) -> None:
    """2 kg from 4 m2 of floor into 10 m3."""
    dry = of_lay(planned(tmp_path, AIR, wait=DRIES))
    wet = of_lay(planned(tmp_path, AIR, wait=DRIES, lay=WATER))
    assert dry.hours < wet.hours
    assert "in air that wet layers make damp" in wet.working
    coat = wait("joint compound", 17.0, at=21.0)
    expected = wait_clock(coat, wetted(steady(18.0, 0.6), WetRoom(10.0, 0.5), (Layer(2.0, drying(coat)),)))
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


LAYERS = ("joint compound", "paint", "water film", "cement", "screed")


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_the_audit_finds_every_layer_of_a_room_ready_at_the_same_minute(data: st.DataObject) -> None:
    """Layers that dry one over the other, in air that changes, some with floors, stages, readings and longer waits."""
    made = []
    for number in range(data.draw(st.integers(1, 4))):
        law = data.draw(st.sampled_from(LAYERS))
        floor = data.draw(st.sampled_from((None, 9.0)))
        waits = [wait_of("next", data.draw(st.floats(2, 40)), law=law, floor_hours=floor)]
        waits.append(wait_of("steam", data.draw(st.floats(2, 90)), law="paint"))
        water = data.draw(st.sampled_from((0.0, 0.3, 1.5, 4.0)))
        surface = data.draw(st.sampled_from(("floor", "wet walls")))
        made.append(step(f"s{number}", on=surface, waits=waits, water=water, dries_for="next"))
    periods = [
        AirStatement(moment(f"{a} 0"), moment(f"{b} 0"), data.draw(st.floats(6, 28)), data.draw(st.floats(0.3, 0.95)),
                     "stated", HERE, floor=data.draw(st.floats(4, 24)))
        for a, b in (("Mon", "Tue"), ("Tue", "Wed"), ("Wed", "Sun2"))
    ]  # fmt: skip
    bath = room("bath", volume=10.0, air_changes=data.draw(st.floats(0.2, 6)), air=AirSaid(tuple(periods)))
    of = job(*made, rooms=[bath])
    starts = [moment("Mon 8") + data.draw(st.integers(0, 3000)) for _ in made]
    plan = Times({one.id: ((start, start + 60),) for one, start in zip(made, starts, strict=True)}, moment("Fri2 15"))
    case = as_they_dry(case_of(of), ends(plan))
    site = Site(of, case.airs, plan)
    for layer, told in ((one, told) for one in made for told in one.waits):
        end = np.array([site.end(layer)], np.int64)
        assert case.clock(layer, told).ready(end)[0] == site.ready(layer, told.purpose)


def test_layers_that_dry_together_dry_slower_and_the_plan_waits_for_both(tmp_path: Path) -> None:
    """The walls and the ceiling are coated on one day: each dries in the water of both."""
    together = planned_coats(tmp_path, "      walls:\n      ceiling:\n")
    alone = planned_coats(tmp_path, "      walls:\n")
    assert together.step("bath/walls/coat").ready[0].hours > alone.step("bath/walls/coat").ready[0].hours
    assert "wet layers" in together.step("bath/ceiling/coat").ready[0].working
    (warning,) = together.warnings
    assert warning.startswith("walls coat with ceiling coat: 2.0 kg of water dry into 10 m3")


def test_a_plan_that_somebody_stops_still_keeps_every_rule_in_the_air_it_makes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The search is stopped in the first air: the plan at hand settles in its own, searched no further."""
    searched = []

    def stopped(*of: Any) -> Answer:
        searched.append(solve(*of))
        return replace(searched[-1], interrupted=True)

    whole = planned_coats(tmp_path, "      walls:\n      ceiling:\n")
    monkeypatch.setattr(planning, "solve", stopped)
    plan = planned_coats(tmp_path, "      walls:\n      ceiling:\n")
    assert (len(searched), plan.interrupted) == (1, True)
    assert plan.finish == whole.finish > searched[0].starts[HAND_OVER]


COATS = """format: 1
recipe: {name}
title: A coat
works on: [{on}]
sources: {{c: "common practice, no source"}}
steps:
  coat:
    do: {name} coat
    hours: 1 h (c)
    water: 1 kg until ready for look (c)
    ready for: {{look: "after 17 h at 21 C 50 %, joint compound law (c)"}}
  look: {{hours: 1 h (c){air}}}
"""


def planned_coats(tmp_path: Path, uses: str, **air: str) -> Plan:
    """The plan of a room with coats; `air`: what a coat's last step says of its air."""
    path = folder(tmp_path, AIR, room="    areas: {wet walls: 5 m2, ceiling: 4 m2}\n")
    for name, on in (("walls", "wet walls"), ("ceiling", "ceiling")):
        said = f", air: {air[name]} (c)" if name in air else ""
        (path / "recipes" / f"{name}.yaml").write_text(COATS.format(name=name, on=on, air=said))
    text = (path / "job.yaml").read_text()
    (path / "job.yaml").write_text(text[: text.index("      bed:")] + uses)
    return plan_for(path, TODAY)


def test_what_must_not_be_done_in_damp_air_waits_until_the_other_layer_is_dry(tmp_path: Path) -> None:
    """What is shown to be out of reach is what would be so if neither coat damped the other."""
    plan = planned_coats(tmp_path, "      walls: {after: ceiling coat}\n      ceiling:\n", walls="at most 80 %")
    assert plan.step("bath/walls/look").start >= plan.step("bath/ceiling/coat").ready[0].at
    assert not plan.proven
    assert plan.start < plan.at_best < plan.finish
    told = next(section.texts[0] for section in foot_of(plan) if section.name == "hand over")
    assert told.endswith(
        "shorter. So much shorter it would be if no layer damped the air of another; how much of that can be had, more "
        "effort does not tell."
    )
    assert plan_for(tmp_path, TODAY, effort=3.0).at_best == plan.at_best


def test_the_audit_sees_work_in_the_air_that_another_layer_makes_damp() -> None:
    drying = wait_of("paint", 17.0, law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    layer = step("a", on="ceiling", waits=[drying], water=2.0, dries_for="paint")
    other = step("b", on="floor", air=(limit("while working", dampest=0.7),))
    said = broken(job(layer, other, rooms=[room_of_ten]), times({"a": "Mon 8-9", "b": "Mon 10-11"}))
    assert said == ("bath/u/b is done in air it does not allow",)
    before = times({"a": "Tue 8-9", "b": "Mon 10-11"})
    assert broken(job(layer, other, rooms=[room_of_ten]), before) == ()


def test_a_start_that_wet_layers_forbid_is_said_so() -> None:
    drying = wait_of("paint", 17.0, law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    layer = step("a", on="ceiling", waits=[drying], water=2.0, dries_for="paint")
    other = step("b", on="floor", air=(limit("while working", dampest=0.7), limit("while working", coldest=25.0)))
    case = as_they_dry(case_of(job(layer, other, rooms=[room_of_ten])), {"bath/u/a": moment("Mon 9")})
    said = [rule.why.text for rule in build(case).of(AllowedStarts) if rule.task == "bath/u/b"]
    assert said == [
        "the air that wet layers make does not allow b sooner", "the air in the room does not allow b sooner",
    ]  # fmt: skip


def test_a_plan_that_goes_round_in_circles_is_made_in_air_at_least_as_damp_as_it_makes_it() -> None:
    """A planner that always lays the second coat where the first one was not drying."""
    drying = wait_of("paint", 17.0, law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    layers = [step(name, on="ceiling", waits=[drying], water=2.0, dries_for="paint") for name in ("a", "b")]
    case, asked = case_of(job(*layers, rooms=[room_of_ten])), []

    def make(cases: dict[str, Case]) -> Times:
        asked.append(dict(cases["tiny"].drying))
        monday = len(asked) % 2
        return times({"a": "Mon 8-9" if monday else "Wed 8-9", "b": "Mon 9-10" if monday else "Wed 9-10"})

    settled = in_own_air({"tiny": case}, make, lambda plan: {"tiny": plan}, lambda cases, plan: False)
    assert len(asked) == 5
    assert asked[0] == {}
    first, last = (asked[number]["bath/u/a"] for number in (1, 4))
    assert first[1] < last[1]
    assert settled.damper == ("tiny",)
    assert settled.first == times({"a": "Mon 8-9", "b": "Mon 9-10"})


def test_a_plan_that_takes_long_to_come_to_rest_is_not_made_in_air_that_is_damp_throughout() -> None:
    """A planner that lays both coats an hour later in every air, ten times."""
    drying = wait_of("paint", 17.0, law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    layers = [step(name, on="ceiling", waits=[drying], water=2.0, dries_for="paint") for name in ("a", "b")]
    case, asked = case_of(job(*layers, rooms=[room_of_ten])), []

    def make(cases: dict[str, Case]) -> Times:
        hour = 8 + min(len(asked), 10)
        asked.append(dict(cases["tiny"].drying))
        return times({"a": f"Mon {hour}-{hour + 1}", "b": f"Mon {hour}-{hour + 1}"})

    settled = in_own_air({"tiny": case}, make, lambda plan: {"tiny": plan}, lambda cases, plan: False)
    assert len(asked) == 12
    assert all(span[0] >= moment("Mon 9") for taken in asked for span in taken.values())
    assert asked[-1]["bath/u/a"][0] < settled.cases["tiny"].drying["bath/u/a"][0] == moment("Mon 19")


POLISHED = "after 14 h at 20 C, within 5 h of ready, cement law"


def test_warmth_that_takes_the_next_steps_start_away_is_said(tmp_path: Path) -> None:
    """Laid by 14:00 in 24 C, it is ready at 1:20 and too late at 6:20; laid by 16:00, just not too late at 8:00."""
    warm = planned(tmp_path, "24 C 50 %", wait=POLISHED)
    (warning,) = warm.warnings
    assert warning.startswith("lay could go in sooner, but not finish after it: in this air it is ready after ")
    assert warning.endswith(", when somebody does")
    assert warm.step("bath/bed/lay").start > warm.step("bath/bed/frame").end
    assert warm.step("bath/bed/lay").warnings == warm.step("bath/bed/finish").warnings == (warning,)
    assert warm.step("bath/bed/frame").warnings == ()
    told = when(warm, steps_named(warm, "lay"), 200)
    assert f"  air: {warning}" in told


def test_a_later_start_that_warmth_takes_away_is_said_too(tmp_path: Path) -> None:
    """The tiler finishes on Thursdays. On Monday nothing helps; on Wednesday of the warm week only a cooler room."""
    air = "\n  2 March: 24 C 50 %\n  9 March: 18 C 50 %"
    wait = "after 12 h at 20 C, within 3 h of ready, cement law"
    path = folder(tmp_path, air, wait=wait, more="people:\n  tiler: {days: Thu}\n")
    bed = path / "recipes" / "bed.yaml"
    bed.write_text(bed.read_text().replace("finish: {hours: 1 h (c)}", "finish: {hours: 1 h (c), by: tiler}"))
    plan = plan_for(path, TODAY)
    assert plan.step("bath/bed/lay").start == moment("Wed2 13:45")
    assert plan.warnings == (
        "lay could go in sooner, but not finish after it: in this air it is ready after 9 h 38 min and too late after "
        "13 h, while nobody works; 8 C cooler it is ready after 15 h, when somebody does",
    )


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


def test_a_window_that_the_water_of_others_moves_proves_nothing(tmp_path: Path) -> None:
    """Damper air may move a window that is counted from ready out of the night; so it rules no hand-over out."""
    uses = "      walls:\n      ceiling:\n"
    sure = planned_coats(tmp_path, uses, walls="at most 100 %")
    for name in ("walls", "ceiling"):
        recipe = tmp_path / "recipes" / f"{name}.yaml"
        recipe.write_text(recipe.read_text().replace("joint compound law", "within 20 h of ready, joint compound law"))
    case = Case(read_job(tmp_path, TODAY), airs(read_job(tmp_path, TODAY)))
    assert moved_by_others(case) == {"bath/walls/coat", "bath/ceiling/coat"}
    plan = plan_for(tmp_path, TODAY)
    assert plan.at_best <= sure.at_best <= plan.finish


@pytest.mark.parametrize("hours", [9, 14])
def test_with_two_coats_that_damp_each_other_hand_over_is_as_early_as_trying_every_start_finds(
    hours: int, tmp_path: Path
) -> None:
    """The brute force has the audit as its only judge, and the audit goes through the room hour by hour."""
    planned_coats(tmp_path, "      walls:\n      ceiling:\n", walls="at most 75 %")
    for name in ("walls", "ceiling"):
        recipe = tmp_path / "recipes" / f"{name}.yaml"
        recipe.write_text(recipe.read_text().replace("after 17 h", f"after {hours} h").replace("1 kg", "0.4 kg"))
    short = (tmp_path / "job.yaml").read_text() + "people: {you: {hours: 08:00-10:30}}\n"
    (tmp_path / "job.yaml").write_text(short)
    of = cut_after(read_job(tmp_path, TODAY), 9)
    assert plan_of(of).goals[0].value == shortest(of)


def test_where_only_wet_layers_let_no_order_fit_that_is_said() -> None:
    """The touch-up has to follow within 3 h, and not in air as damp as the layer makes it for longer."""
    drying = wait_of("paint", 17.0, law="joint compound")
    room_of_ten = room("bath", volume=10.0, air_changes=0.5, air=air(("Mon 0", "Sun2 0", 21.0, 0.5)))
    open_ = wait_of("next", 0.5, within_minutes=180)
    layer = step("a", waits=[drying, open_], water=2.0, dries_for="paint")
    touch = step("b", after="a ready for next", air=(limit("while working", dampest=0.7),))
    with pytest.raises(NoOrderFits) as none:
        plan_of(titled(layer, touch, rooms=[room_of_ten]))
    assert none.value.sentences[1].startswith("In the air that wet layers make none fits, without them one would; ")
    fan = replace(room_of_ten, air_changes=40.0)
    assert plan_of(titled(layer, touch, rooms=[fan])).steps
