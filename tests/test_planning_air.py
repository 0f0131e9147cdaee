"""A job's air from its files to its plan: heaters, dryers, weather, floors, and air that begins with a step."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from test_air_epw import HEAD, hour_lines
from tiny_folder import TODAY, folder, of_lay, planned
from tiny_jobs import job, moment, network_of, solved, step

from sequencer import planning
from sequencer.air.hourly import HourAir
from sequencer.air.moist import saturation_pressure
from sequencer.audit import Times
from sequencer.files import read_job
from sequencer.network.model import HAND_OVER
from sequencer.network.part import leading_to
from sequencer.plan import AIR_AT_ONCE
from sequencer.planning import NoOrderFits, airs, plan_of
from sequencer.solve import Answer
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.place import Faulty

MONDAY = 29540160
"""2 March 2026 00:00 UTC."""


def near(value: float, **how: Any) -> Any:
    return pytest.approx(value, **how)


def air_at(path: Path, day: int, hour: int = 12) -> HourAir:
    """The air of the bath so many days after Monday."""
    return airs(read_job(path, TODAY))["bath"].at(MONDAY + day * DAY + hour * HOUR)


def faults(path: Path) -> list[str]:
    with pytest.raises(Faulty) as raised:
        read_job(path, TODAY)
    return [str(fault) for fault in raised.value.faults]


def test_the_monday_of_these_tests_is_the_jobs_first_minute(tmp_path: Path) -> None:
    assert read_job(folder(tmp_path, "17 C 65 %"), TODAY).start == MONDAY


def test_a_heater_from_a_day_on_dries_the_air_it_warms(tmp_path: Path) -> None:
    path = folder(tmp_path, "\n  2 March: 9 C 80 %\n  5 March: heated to 20 C\n  9 March: 15 C 70 %")
    kept = 0.8 * saturation_pressure(9.0) / saturation_pressure(20.0)
    assert air_at(path, 2) == HourAir(9.0, 0.8, "stated", "stated", 9.0)
    assert air_at(path, 3) == HourAir(20.0, near(kept), "heated", "heated", 20.0)
    assert kept == near(0.393, abs=0.001)
    assert air_at(path, 8) == HourAir(15.0, 0.7, "stated", "stated", 15.0)


def test_a_humidity_beside_the_heater_is_taken_at_its_word(tmp_path: Path) -> None:
    path = folder(tmp_path, "\n  2 March: 9 C 80 %\n  5 March: heated to 20 C, 65 %")
    assert air_at(path, 3) == HourAir(20.0, 0.65, "heated", "heated", 20.0)


def test_heat_does_not_dry_air_of_which_nothing_is_known(tmp_path: Path) -> None:
    assert air_at(folder(tmp_path, "heated to 20 C"), 1) == HourAir(20.0, 0.6, "heated", "assumed", 20.0)


def test_a_dehumidifier_dries_to_its_figure_and_no_air_that_is_drier(tmp_path: Path) -> None:
    path = folder(tmp_path, "\n  2 March: 15 C 80 %\n  4 March: dried to 50 %\n  9 March: 15 C 40 %, dried to 50 %")
    assert air_at(path, 1).humidity == 0.8
    assert air_at(path, 3) == HourAir(15.0, 0.5, "stated", "dried", 15.0)
    assert air_at(path, 8) == HourAir(15.0, 0.4, "stated", "stated", 15.0)


def test_a_heater_and_a_dryer_on_a_line_of_their_own_end_the_heater_before_them(tmp_path: Path) -> None:
    lines = "\n  2 March: 9 C 80 %\n  3 March: heated to 20 C\n  5 March: dried to 50 %"
    assert air_at(folder(tmp_path, lines), 4) == HourAir(9.0, 0.5, "stated", "dried", 9.0)


YEAR = "\n".join([*HEAD, *hour_lines()]) + "\n"


def test_winter_air_is_brought_indoors_heated_with_what_people_add(tmp_path: Path) -> None:
    """The made-up year has 6.0 C on 2 March; its humidity rises by the hour, noon in UTC is 8 there: 58 %."""
    air = "\n  outdoor: harbour.epw\n  indoors: 20 C, gain 2 g/kg\n  altitude: 0 m"
    indoors = air_at(folder(tmp_path, air, files={"harbour.epw": YEAR}), 0)
    vapour = 0.58 * saturation_pressure(6.0)
    ratio = 0.621945 * vapour / (101.325 - vapour) + 0.002
    expected = 101.325 * ratio / (0.621945 + ratio) / saturation_pressure(20.0)
    assert indoors == HourAir(20.0, near(expected, rel=1e-3), "outdoors", "outdoors", 20.0)


def test_outdoor_air_stands_behind_what_is_said_and_after_the_forecast(tmp_path: Path) -> None:
    forecast = "time,temperature C,humidity %\n2026-03-03 12:10,1,90\n2026-03-03 12:50,3,70\n2026-03-03 14:00,5,\n"
    air = "\n  outdoor: harbour.epw\n  forecast: forecast.csv\n  said: {5 March: 14 C}"
    path = folder(tmp_path, air, files={"harbour.epw": YEAR, "forecast.csv": forecast})
    assert air_at(path, 1).temperature == 2.0
    assert air_at(path, 1).humidity == near(0.8, rel=0.001)
    assert (air_at(path, 1, 13).temperature, air_at(path, 1, 14).temperature) == (near(6.1), 5.0)
    assert air_at(path, 3).temperature == 14.0
    assert air_at(path, 3).how_humidity == "outdoors"


def test_the_stations_altitude_counts_unless_the_job_says_its_own(tmp_path: Path) -> None:
    files = {"harbour.epw": YEAR}
    airs_said = (f"\n  outdoor: harbour.epw{more}" for more in ("", "\n  altitude: 300 ft"))
    said = [read_job(folder(tmp_path, air, files=files), TODAY) for air in airs_said]
    assert [one.rooms[0].air.outdoors.altitude for one in said] == [145.0, near(91.44)]  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("air", "told"),
    [
        ("\n  indoors: 20 C", '"indoors" says nothing without outdoor air'),
        ("\n  outdoor: nowhere.epw", 'there is no file "nowhere.epw" beside the job'),
        ("\n  outdoor: harbour.epw\n  indoors: 20 C, 21 C", '"21 C" does not say how outdoor air comes in'),
        ("\n  outdoor: harbour.epw\n  indoors: gain lots g/kg", '"lots" is no number'),
        ("\n  after bed laid: heated to 20 C", '"laid" is no step of "bed"'),
        ("\n  after bed lay ready for finish: 20 C", "air begins with the end of work of a step"),
        ("\n  2 March: floor at 12 C", "the line does not say what the air is"),
    ],
)
def test_what_cannot_be_is_told_at_its_place(tmp_path: Path, air: str, told: str) -> None:
    found = faults(folder(tmp_path, air, files={"harbour.epw": YEAR}))
    assert [told in fault for fault in found] == [True]
    assert found[0].startswith("job.yaml:")


def test_mortar_on_a_cold_floor_sets_at_the_floors_warmth(tmp_path: Path) -> None:
    """24 h at 20 C: 43 h at 10 C by the factor 0.560 (computed), whatever the air above it."""
    cold = of_lay(planned(tmp_path, "20 C 50 %, floor at 10 C"))
    assert cold.hours == near(24 / 0.560, abs=0.1)
    assert cold.working == "24 h at 20 C; at 10 C on the floor here, 43 h"


def test_on_a_wall_the_floors_warmth_does_not_count_and_what_dries_has_the_rooms_air(tmp_path: Path) -> None:
    air = "20 C 50 %, floor at 10 C"
    assert of_lay(planned(tmp_path, air, on="[dry walls]")).hours == near(24.0)
    drying = "after 24 h at 20 C 50 %, water film law"
    assert of_lay(planned(tmp_path, air, wait=drying)).hours == near(24.0)


def test_a_floor_near_the_dew_point_forbids_work_that_a_wall_allows(tmp_path: Path) -> None:
    """20 C and 60 % have their dew point at 12.0 C."""
    near = "    air: surface 3 C above dew point (c)\n"
    with pytest.raises(NoOrderFits):
        planned(tmp_path, "20 C 60 %, floor at 14 C", lay=near)
    assert planned(tmp_path, "20 C 60 %, floor at 15.5 C", lay=near).steps
    assert planned(tmp_path, "20 C 60 %, floor at 14 C", lay=near, on="[dry walls]").steps


def test_air_that_begins_with_a_step_counts_from_its_end(tmp_path: Path) -> None:
    """Framing is done Monday at noon, laying on Monday at 14:00: in 20 C the mortar takes a day, not two and a half."""
    after = planned(tmp_path, "\n  2 March: 6 C 60 %\n  after bed frame: heated to 20 C")
    from_start = planned(tmp_path, "\n  2 March: heated to 20 C")
    assert after.step("bath/bed/frame").end == MONDAY + 12 * HOUR
    assert of_lay(after).hours == near(24.0, abs=0.02)
    assert after.finish == from_start.finish
    assert after.assumed == ()


def test_air_that_begins_after_the_layer_itself_does_not_warm_what_is_over_by_then(tmp_path: Path) -> None:
    cold = planned(tmp_path, "6 C 60 %")
    late = planned(tmp_path, "\n  2 March: 6 C 60 %\n  after bed finish: heated to 20 C")
    assert late.step("bath/bed/finish").start == cold.step("bath/bed/finish").start
    warmed = planned(tmp_path, "\n  2 March: 6 C 60 %\n  after bed lay: heated to 20 C")
    assert of_lay(warmed).hours == near(24.0, abs=0.6)
    assert warmed.finish < cold.finish


def test_a_dated_line_ends_what_began_with_a_step(tmp_path: Path) -> None:
    air = "\n  2 March: 6 C 60 %\n  after bed frame: heated to 20 C\n  3 March: 6 C 60 %"
    assert of_lay(planned(tmp_path, air)).hours > 40


class Stub:
    """A solver whose step ends where it pleases, whatever the air."""

    def __init__(self, ends: list[int]) -> None:
        self.ends = iter(ends)
        self.taken: list[int | None] = []

    def __call__(self, job: Any, effort: float, told: Any, tidy: bool) -> Any:
        self.taken.append(job.switches[0].at)
        return None, None, Answer({}, (), 0, {}), Times({"bath/bed/frame": ((0, next(self.ends)),)}, 0), (), False, ""


def settled(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, ends: list[int]
) -> tuple[list[int | None], tuple[str, ...]]:
    """The moments the air was taken to change at, and what is assumed in the end."""
    stub = Stub(ends)
    monkeypatch.setattr(planning, "_solved", stub)
    monkeypatch.setattr(planning, "_no_surer", lambda answer, other: answer)
    monkeypatch.setattr(planning, "_audited", lambda *said: said[-3])
    monkeypatch.setattr(planning, "_is_bound_by", lambda answer, other: False)
    job = read_job(folder(tmp_path, "\n  2 March: 6 C 60 %\n  after bed frame: heated to 20 C"), TODAY)
    return stub.taken, plan_of(job)  # type: ignore[return-value]


def test_a_plan_is_made_again_until_the_step_ends_where_the_air_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert settled(tmp_path, monkeypatch, [100, 300, 200, 200]) == ([MONDAY, 100, 300, 200], ())


def test_air_that_does_not_settle_is_taken_to_change_as_late_as_any_plan_had_it_and_that_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken, assumed = settled(tmp_path, monkeypatch, [100, 200, 100, 200, 100])
    assert taken == [MONDAY, 100, 200, 100, 200]
    assert assumed == ("air after frame (bath/bed/frame) taken to begin later: no plan settles it",)


def test_a_step_that_ends_later_each_time_has_no_plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(NoOrderFits) as none:
        settled(tmp_path, monkeypatch, [100 * number for number in range(1, 9)])
    assert "air after frame" in none.value.sentences[1]


SHOP = """format: 1
recipe: shop
title: Work in the shop
sources: {c: "common practice, no source"}
works on: []
steps:
  one: {hours: 6 h (c), place: shop}
  two: {hours: 6 h (c), place: shop, after: start}
  three: {hours: 6 h (c), place: shop, after: start}
"""
STOVE = """format: 1
recipe: stove
title: A stove
sources: {c: "common practice, no source"}
works on: []
steps:
  pipe: {hours: 7 h (c), kind: look, stands: elsewhere}
"""


def test_a_step_that_brings_heat_is_brought_forward_where_that_hands_over_sooner(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By himself, seven days a week: the pipe takes longer than any hour in the shop, and would come last of all."""
    path = folder(
        tmp_path,
        "\n  2 March: 8 C 60 %\n  after stove pipe: heated to 22 C",
        wait="after 96 h at 20 C, cement law",
        uses="      stove:\n      shop:\n",
        more="people: {you: {days: Mon to Sun}}\n",
    )
    (path / "recipes" / "shop.yaml").write_text(SHOP)
    (path / "recipes" / "stove.yaml").write_text(STOVE)
    job = read_job(path, TODAY)
    plan = plan_of(job)
    monkeypatch.setattr(planning, "brought_forward", lambda job, ends, best, plan_by, better: best)
    as_it_came = plan_of(job)
    assert plan.step("bath/stove/pipe").end < as_it_came.step("bath/stove/pipe").end
    assert plan.finish < as_it_came.finish
    assert plan.at_best == as_it_came.at_best
    assert not plan.proven
    assert plan.at_best_in == as_it_came.at_best_in == AIR_AT_ONCE
    assert plan.assumed == as_it_came.assumed == ()


def test_the_part_that_leads_to_a_step_leaves_out_all_else() -> None:
    of = job(step("a"), step("b", after="a", by="tiler"), step("c", 600), step("d", after="c"))
    part = leading_to(network_of(of), "bath/u/b")
    assert set(part.tasks) == {"bath/u/a", "bath/u/b", HAND_OVER}
    starts = {"bath/u/a": moment("Mon 8"), "bath/u/b": moment("Mon 9"), HAND_OVER: moment("Mon 10")}
    assert solved(part).starts == starts
