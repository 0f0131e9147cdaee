"""The audit on layers: for every sentence it can say, a sound plan and the one change that brings it out."""

from __future__ import annotations

from dataclasses import replace

import pytest
from audit_row import Row
from tiny_jobs import HERE, air, job, keep_off, leave, limit, moment, room, step, trade, wait

from sequencer.terms.air import AirSwitch
from sequencer.terms.job import Room, Trade

COLD_TUESDAY = air(
    ("Mon 0", "Tue 0", 20.0, 0.5), ("Tue 0", "Wed 0", 4.0, 0.5), ("Wed 0", "Sun2 0", 20.0, 0.5)
)
COLD = [room("bath", air=COLD_TUESDAY)]
HEATED_AFTER_A = replace(COLD_TUESDAY, switches=(AirSwitch(("bath/u/a",), (), HERE, at=moment("Mon 9")),))
TWO: list[Room] = [room("bath", at_once=2)]
TILER: list[Trade] = [trade("tiler")]
FLOOD = (
    step("coat", on="floor", waits=[wait("foot", 2)], closing=keep_off("drain is done")),
    step("fill", after="coat ready for foot", on="floor"),
    step("drain", after="fill", on="floor"),
)

ROWS = {
    "a step follows the end of another": Row(
        job(step("a"), step("b", after="a", by="tiler"), rooms=TWO), {"a": "Mon 8-9", "b": "Mon 9-10"},
        {"b": "Mon 8:45-9:45"}, ("bath/u/b starts before bath/u/a is done",),
    ),
    "a step follows the ready of another": Row(
        job(step("a", waits=[wait("foot", 24)]), step("b", after="a ready for foot")),
        {"a": "Mon 8-9", "b": "Tue 9-10"}, {"b": "Tue 8:45-9:45"},
        ("bath/u/b starts before bath/u/a is ready for foot",),
    ),
    "a wait stands still in air that stops it": Row(
        job(
            step("a", waits=[wait("next", 24, limit("stops", coldest=5.0))]),
            step("b", after="a ready for next"), rooms=COLD,
        ),
        {"a": "Mon 8-9", "b": "Wed 9-10"}, {"b": "Wed 8-9"}, ("bath/u/b starts before bath/u/a is ready for next",),
    ),
    "a floor of hours is never undercut": Row(
        job(step("a", waits=[wait("next", 2, floor_hours=24)]), step("b", after="a ready for next")),
        {"a": "Mon 8-9", "b": "Tue 9-10"}, {"b": "Tue 8-9"}, ("bath/u/b starts before bath/u/a is ready for next",),
    ),
    "within counts from the end of work": Row(
        job(step("a", waits=[wait("next", 2, within_minutes=240)]), step("b", after="a ready for next")),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 13:15-14:15"}, ("bath/u/b starts too late after bath/u/a",),
    ),
    "within of ready counts from ready": Row(
        job(
            step("a", waits=[wait("next", 2, within_minutes=240, within_of_ready=True)]),
            step("b", after="a ready for next"),
        ),
        {"a": "Mon 8-9", "b": "Mon 15-16"}, {"b": "Mon 15:15-16, Tue 8-8:15"},
        ("bath/u/b starts too late after bath/u/a",),
    ),
    "within binds who hears by a state": Row(
        job(
            step("a", gives="coat ready for cover", waits=[wait("cover", 2, within_minutes=240)]),
            step("other/b", needs="coat"),
        ),
        {"a": "Mon 8-9", "other/b": "Mon 13-14"}, {"other/b": "Mon 13:15-14:15"},
        ("bath/other/b starts too late after bath/u/a",),
    ),
    "a cushion lies behind the work in front": Row(
        job(step("a"), step("b", after="a", by="plumber"), trades=[trade("plumber", cushion=240)]),
        {"a": "Mon 8-9", "b": "Mon 14-15"}, {"b": "Mon 13-14"},
        ("bath/u/b comes less than the cushion of plumber behind bath/u/a",),
    ),
    "hand-over waits for every step": Row(
        job(step("a")), {"a": "Tue 8-9"}, {}, ("hand-over comes before bath/u/a is done",), "Tue 9", "Tue 8"
    ),
    "hand-over waits for layers": Row(
        job(step("a", waits=[wait("load", 24)]), hand_over_needs=("load",)), {"a": "Mon 8-9"}, {},
        ("hand-over comes before bath/u/a is ready for load",), "Tue 9", "Tue 8:45",
    ),
    "a state is given before it is needed": Row(
        job(step("a", gives="tiled ready for grout", waits=[wait("grout", 24)]), step("other/b", needs="tiled")),
        {"a": "Mon 8-9", "other/b": "Tue 9-10"}, {"other/b": "Tue 8-9"},
        (
            "bath/other/b starts before bath/u/a is ready for grout",
            "bath/other/b needs tiled, which nobody has given by then",
        ),
    ),
    "what only follows a state waits for it too": Row(
        job(step("a", gives="cable read"), step("other/b", follows="cable read")),
        {"a": "Mon 8-9", "other/b": "Mon 9-10"}, {"a": "Mon 10-11"}, ("bath/other/b starts before bath/u/a is done",),
    ),
    "a state reaches across rooms": Row(
        job(step("hall/u/a", gives="dry"), step("b", needs="hall: dry")),
        {"hall/u/a": "Mon 8-9", "b": "Mon 9-10"}, {"hall/u/a": "Mon 10-11"},
        ("bath/u/b starts before hall/u/a is done", "bath/u/b needs hall: dry, which nobody has given by then"),
    ),
    "a state that is away keeps others out": Row(
        job(
            step("a", gives="watertight", on="wet walls"),
            step("niche/cut", needs="watertight", takes_back="watertight", on="wet walls"),
            step("niche/mend", after="niche/cut", gives="watertight", on="wet walls"),
            step("tile/set", needs="watertight", on="wet walls"),
        ),
        {"a": "Mon 8-9", "niche/cut": "Mon 9-10", "niche/mend": "Mon 11-12", "tile/set": "Mon 13-14"},
        {"tile/set": "Mon 10-11"}, ("bath/tile/set needs watertight while bath/niche/cut has taken it back",),
    ),
    "a repair elsewhere is a giver like any other": Row(
        job(
            step("a", gives="dry", on="floor, wet walls"),
            step("mend/cut", needs="dry", takes_back="dry", on="floor"),
            step("mend/fill", after="mend/cut", gives="dry", on="floor, wet walls"),
            step("tile/set", needs="dry", on="wet walls"),
        ),
        {"a": "Mon 8-9", "mend/cut": "Mon 9-10", "mend/fill": "Mon 10-11", "tile/set": "Mon 11-12"},
        {"tile/set": "Mon 13-14", "mend/cut": "Mon 14-15", "mend/fill": "Mon 15-16"},
        ("bath/tile/set starts before bath/mend/fill is done",),
    ),
    "one step a surface": Row(
        job(step("a", on="wet walls"), step("b", on="wet walls, floor", by="tiler"), rooms=TWO),
        {"a": "Mon 8-9", "b": "Mon 9-10"}, {"b": "Mon 8:30-9:30"},
        ("bath/u/a and bath/u/b meet on a surface that is closed to one of them",),
    ),
    "a surface stays closed until the wait named": Row(
        job(
            step("a", on="wet walls", waits=[wait("cover", 3)], closing=leave("cover")),
            step("b", on="wet walls/left"),
        ),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/a and bath/u/b meet on a surface that is closed to one of them",),
    ),
    "a closing until a step is done lets in what leads to it and nobody else": Row(
        job(*FLOOD, step("other/b", on="floor")),
        {"coat": "Mon 8-9", "fill": "Mon 11-12", "drain": "Tue 8-9", "other/b": "Tue 9-10"}, {"other/b": "Mon 13-14"},
        (
            "bath/u/coat and bath/other/b meet on a surface that is closed to one of them",
            "bath/other/b stands on a floor that bath/u/coat keeps closed",
        ),
    ),
    "a closing does not let in a step of the recipe that it does not wait for": Row(
        job(*FLOOD, step("wipe", on="floor")),
        {"coat": "Mon 8-9", "fill": "Mon 11-12", "drain": "Tue 8-9", "wipe": "Tue 9-10"}, {"wipe": "Mon 13-14"},
        (
            "bath/u/coat and bath/u/wipe meet on a surface that is closed to one of them",
            "bath/u/wipe stands on a floor that bath/u/coat keeps closed",
        ),
    ),
    "a closing lets in the step its wait is for": Row(
        job(
            step("wipe", on="floor", waits=[wait("polish", 0.5), wait("foot", 24)], closing=keep_off("foot")),
            step("polish", on="floor", after="wipe ready for polish"), step("other/b", on="floor"),
        ),
        {"wipe": "Mon 8-9", "polish": "Mon 9:30-10:30", "other/b": "Tue 9-10"}, {"other/b": "Mon 13-14"},
        (
            "bath/u/wipe and bath/other/b meet on a surface that is closed to one of them",
            "bath/other/b stands on a floor that bath/u/wipe keeps closed",
        ),
    ),
    "nobody stands on a closed floor": Row(
        job(step("a", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot")), step("b", on="ceiling")),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/b stands on a floor that bath/u/a keeps closed",),
    ),
    "a floor is closed by whoever works on it from outside the room": Row(
        job(
            step("a", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot"), stands="elsewhere"),
            step("b", on="ceiling"),
        ),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/b stands on a floor that bath/u/a keeps closed",),
    ),
    "who works in the shower stands on its floor": Row(
        job(step("a", on="shower floor", waits=[wait("foot", 3)], closing=keep_off("foot")), step("b", on="wet walls")),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/b stands on a floor that bath/u/a keeps closed",),
    ),
    "a room is entered over the floor of another": Row(
        job(
            step("hall/u/a", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot")), step("b"),
            rooms=[room("stairs", reached_through="hall"), room("bath", reached_through="stairs")],
        ),
        {"hall/u/a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/b stands on a floor that hall/u/a keeps closed",),
    ),
    "one step a room": Row(
        job(step("a", on="floor"), step("b", on="ceiling", by="tiler"), trades=TILER),
        {"a": "Mon 8-9", "b": "Mon 9-10"}, {"b": "Mon 8:30-9:30"}, ("bath/u/a, bath/u/b are in the bath at once",),
    ),
    "two steps a room where the job says so, and no third": Row(
        job(step("a"), step("b", by="tiler"), step("c", by="plumber"), rooms=TWO),
        {"a": "Mon 8-9", "b": "Mon 8-9", "c": "Mon 9-10"}, {"c": "Mon 8:30-9:30"},
        ("bath/u/a, bath/u/b, bath/u/c are in the bath at once",),
    ),
    "a machine's dust hangs for two hours": Row(
        job(step("a", makes=("machine dust",)), step("b", waits=[wait("dust", 1)])),
        {"a": "Mon 8-9", "b": "Mon 11-12"}, {"b": "Mon 10-11"},
        ("bath/u/a makes dust, which bath/u/b does not bear yet",),
    ),
    "dust of a hand tool settles at once, and a layer bears it when it is ready": Row(
        job(step("a", makes=("hand dust",)), step("b", waits=[wait("dust", 1)])),
        {"b": "Mon 8-9", "a": "Mon 10-11"}, {"a": "Mon 9:45-10:45"},
        ("bath/u/a makes dust, which bath/u/b does not bear yet",),
    ),
    "a wet film keeps dust out until its surface opens": Row(
        job(
            step("a", makes=("hand dust",), on="ceiling"),
            step("b", wet_film=True, on="wet walls", waits=[wait("cover", 4)], closing=leave("cover")),
        ),
        {"b": "Mon 8-9", "a": "Mon 13-14"}, {"a": "Mon 10-11"},
        ("bath/u/a makes dust, which bath/u/b does not bear yet",),
    ),
    "nothing shakes what sets": Row(
        job(step("a", makes=("shaking",)), step("b", waits=[wait("shaking", 24)])),
        {"b": "Mon 8-9", "a": "Tue 9-10"}, {"a": "Mon 10-11"},
        ("bath/u/a makes shaking, which bath/u/b does not bear yet",),
    ),
    "work keeps to air that allows it": Row(
        job(step("a", 120, air=(limit("while working", coldest=5.0),)), rooms=COLD), {"a": "Mon 14-16"},
        {"a": "Mon 15-16, Tue 8-9"}, ("bath/u/a is done in air it does not allow",),
    ),
    "the air is right some hours before": Row(
        job(step("a", air=(limit("before", coldest=5.0, hours_before=10.0),)), rooms=COLD), {"a": "Wed 10-11"},
        {"a": "Wed 9-10"}, ("bath/u/a has had the wrong air before it",),
    ),
    "a layer is spoilt by the air before it is ready": Row(
        job(step("a", waits=[wait("load", 9, limit("spoils", coldest=5.0))]), rooms=COLD), {"a": "Mon 14-15"},
        {"a": "Mon 15-16"}, ("bath/u/a is spoilt by the air before it is ready for load",),
    ),
    "no heater is counted on before the step it begins with": Row(
        job(step("a"), rooms=[room("bath", air=HEATED_AFTER_A)]), {"a": "Mon 8-9"}, {"a": "Mon 8:15-9:15"},
        ("the air of the bath is taken to change before bath/u/a is done",),
    ),
    "a surface near the dew point is too damp to work on": Row(
        job(
            step("a", air=(limit("while working", above_dew_point=3.0),)),
            rooms=[room("bath", air=air(("Mon 0", "Tue 0", 20.0, 0.5), ("Tue 0", "Sun2 0", 20.0, 0.9)))],
        ),
        {"a": "Mon 8-9"}, {"a": "Tue 8-9"}, ("bath/u/a is done in air it does not allow",),
    ),
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_a_sound_plan_passes_and_one_change_brings_out_one_sentence(row: Row) -> None:
    assert row.before() == ()
    assert row.after() == row.says


def test_a_layer_that_is_never_ready_is_looked_at_to_the_end_of_the_air_and_no_further() -> None:
    freezing = [room("bath", air=air(("Mon 0", "Sun2 0", -15.0, 0.5)))]
    never = wait("heat", 24, limit("spoils", hottest=30.0), law="cement")
    assert Row(job(step("a", waits=[never]), rooms=freezing), {"a": "Mon 8-9"}, {}, ()).before() == ()
