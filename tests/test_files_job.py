"""A folder of files becomes a job: every step with its id, its links, its surfaces, its minutes, its people."""

from __future__ import annotations

import copy
import pickle
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from test_files_faulty import SHELF

from sequencer.files import library, read_job, read_recipe_library
from sequencer.files.rooms import room_areas
from sequencer.files.shelf import demo_folder, recipes_folder
from sequencer.terms.air import AirStatement
from sequencer.terms.job import Job, Link, Step, Surface
from sequencer.terms.minute import utc
from sequencer.terms.place import Place

Read = Callable[..., Job]
TODAY = date(2026, 2, 23)
HEAD = """format: 1
job: back-lane
place: {zone: America/Halifax, holidays: CA NS}
start: Mon 2 March 2026
"""
ROOM = """rooms:
  bathroom:
    size: 2.4 m by 2.1 m, 2.4 m high
    areas: {wet walls: 9 m2, shower floor: 1 m2}
    already: [boards fixed]
    recipes:
"""


@pytest.fixture(autouse=True)
def own_shelf(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(library, "recipes_folder", lambda: SHELF)


@pytest.fixture
def job(tmp_path: Path) -> Read:
    """Reads a job from the recipes of one room and what stands around it."""

    def read(uses: str, more: str = "", room: str = ROOM, today: date = TODAY) -> Job:
        lines = "".join(f"      {use}\n" for use in uses.split("\n"))
        (tmp_path / "job.yaml").write_text(HEAD + room + lines + more, encoding="utf-8")
        return read_job(tmp_path, today)

    return read


def links(step: Step) -> list[tuple[str, str | None, str]]:
    return [(link.id, link.purpose, link.why) for link in step.links]


def test_a_step_follows_the_step_above_through_its_own_wait(job: Read) -> None:
    found = job("membrane:")
    assert [step.id for step in found.steps] == ["bathroom/membrane/coat 1", "bathroom/membrane/coat 2"]
    assert links(found.steps[1]) == [("bathroom/membrane/coat 1", "coat 2", "recipe")]


def test_a_wait_for_next_is_heard_by_the_step_below_and_an_after_replaces_the_step_above(tmp_path: Path) -> None:
    recipe = """format: 1
recipe: slab
title: Slab
sources: {c: "common practice, no source"}
steps:
  pour: {hours: 1 h (c), ready for: {next: "after 4 h, fixed (c)", mark: "after 8 h, fixed (c)"}}
  trowel: {hours: 1 h (c)}
  mark: {hours: 1 h (c)}
  sweep: {hours: 1 h (c), after: start}
  seal: {hours: 1 h (c), after: [trowel, pour ready for next]}
"""
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "slab.yaml").write_text(recipe)
    (tmp_path / "job.yaml").write_text(HEAD + ROOM + "      slab:\n")
    found = read_job(tmp_path, TODAY)
    base = "bathroom/slab"
    assert {step.name: links(step) for step in found.steps} == {
        "pour": [],
        "trowel": [(f"{base}/pour", "next", "recipe")],
        "mark": [(f"{base}/trowel", None, "recipe"), (f"{base}/pour", "mark", "recipe")],
        "sweep": [],
        "seal": [(f"{base}/trowel", None, "recipe"), (f"{base}/pour", "next", "recipe")],
    }


def test_parts_follow_each_other_and_have_their_own_surfaces_and_areas(job: Read) -> None:
    found = job("membrane:\ntile: {parts: {first wall: 4 m2, other walls: 5 m2}}")
    tiles = [step for step in found.steps if step.use == "tile"]
    assert [step.id for step in tiles[:3]] == [
        "bathroom/tile first wall/set",
        "bathroom/tile first wall/fill",
        "bathroom/tile first wall/wipe",
    ]
    assert tiles[0].surfaces == (Surface("wet walls", "first wall"),)
    assert [step.minutes for step in tiles if step.name == "set"] == [240, 300]
    assert tiles[0].title == "set, first wall"
    assert links(tiles[3]) == [("bathroom/tile first wall/wipe", None, "my order")]


def test_parts_without_areas_share_the_surface(job: Read) -> None:
    found = job("membrane:\ntile: {parts: [first wall, other walls]}")
    assert [step.minutes for step in found.steps if step.name == "set"] == [270, 270]
    assert found.assumed == ("bathroom: parts of tile taken as equal",)


def test_after_and_before_are_my_order(job: Read) -> None:
    found = job(
        "membrane:\ntile: {parts: [left, right]}\npaint: {after: tile left, before: tile right}\nglass: {after: tile}"
    )
    assert links(found.step("bathroom/paint/first")) == [("bathroom/tile left/wipe", None, "my order")]
    assert ("bathroom/paint/second", None, "my order") in links(found.step("bathroom/tile right/set"))
    assert links(found.step("bathroom/glass/measure")) == [("bathroom/tile right/wipe", None, "my order")]


def test_an_order_may_name_a_step_and_what_it_is_ready_for(job: Read) -> None:
    found = job(
        "paint: {after: bathroom glass fit ready for water, before: glass2 fit}\nglass:\nglass2: {recipe: glass}"
    )
    assert links(found.step("bathroom/paint/first")) == [("bathroom/glass/fit", "water", "my order")]
    assert links(found.step("bathroom/glass2/fit"))[-1] == ("bathroom/paint/second", None, "my order")


def test_the_head_of_a_recipe_speaks_for_its_first_and_last_step(job: Read) -> None:
    found = job("membrane:\ntile:")
    assert [need.word for need in found.step("bathroom/tile/set").needs] == ["watertight"]
    assert found.step("bathroom/tile/fill").needs == ()
    assert [(given.state, given.purpose) for given in found.step("bathroom/membrane/coat 2").gives] == [
        ("watertight", "cover")
    ]


def test_a_change_wins_key_by_key_and_wait_by_wait(job: Read) -> None:
    change = "{coat 1: {hours: 3 h, do: First coat of mine}, coat 2: {ready for: {water: 'after 2 d, fixed (label)'}}}"
    found = job(f"membrane: {{change: {change}}}")
    first, second = found.steps
    assert (first.minutes, first.hours.source, first.title, first.one_go) == (
        180,
        "this job",
        "First coat of mine",
        True,
    )
    assert first.hours.place.file == "job.yaml"
    assert [(wait.purpose, wait.source) for wait in second.waits] == [
        ("cover", "common practice, no source"),
        ("water", "label"),
    ]
    assert found.recipes["membrane"].steps[0].title == "First coat of mine"


def test_somebody_else_does_the_steps_that_are_yours(job: Read) -> None:
    people = "people:\n  plumber:\n  inspector:\n  mate: {hours: 09:00-12:00}\n"
    found = job("pipes:\nglass: {by: mate}", people)
    assert {(step.use, step.trade) for step in found.steps} == {
        ("pipes", "plumber"),
        ("pipes", "inspector"),
        ("glass", "mate"),
    }
    assert list(found.trades) == ["plumber", "inspector", "mate", "you"]


def test_what_is_not_said_of_a_room_follows_from_its_size(job: Read) -> None:
    room = job("paint:").room("bathroom")
    assert room.areas == pytest.approx(
        {"floor": 4.04, "shower floor": 1.0, "wet walls": 9.0, "dry walls": 12.6, "ceiling": 5.04}
    )
    assert room.volume == pytest.approx(12.096)
    assert room_areas(None, {"floor": 3.0}) == {"floor": 3.0}


def test_surfaces_a_room_has_not_are_left_out_of_its_steps(job: Read) -> None:
    people = "people:\n  plumber:\n  inspector:\n"
    found = job("pipes:", people, ROOM.replace("{wet walls: 9 m2, shower floor: 1 m2}", "{shower floor: 1 m2}"))
    assert found.steps[0].surfaces == (Surface("floor"),)


def test_the_plan_counts_from_today_but_never_from_after_the_start(job: Read) -> None:
    early, late = job("paint:"), job("paint:", today=date(2026, 5, 1))
    assert f"{utc(early.now):%d %b %H:%M}" == "23 Feb 04:00"
    assert late.now == late.start
    assert f"{utc(early.start):%d %b %H:%M}" == "02 Mar 04:00"
    assert (early.horizon - early.start) == 40 * 7 * 24 * 60
    assert early.half_days[:3] == (early.start, early.start + 720, early.start + 1440)
    assert early.working_days[0][0] == early.now


def test_a_promise_is_kept_by_the_end_of_its_day(job: Read) -> None:
    found = job("paint:", "promise: Fri 24 April 2026\nhand over needs: water\nwords: UK\n")
    assert f"{utc(found.promise):%d %b %H:%M}" == "25 Apr 03:00"
    assert (found.hand_over_needs, found.words, found.hand_over_trade) == (("water",), "UK", "you")


def test_holidays_and_closed_days_are_named(job: Read) -> None:
    found = job("paint:", "closed: [6 April, 10 April to 12 April]\n")
    named = {f"{utc(minute):%d %b}": name for minute, name in found.closed_days.items()}
    assert (named["03 Apr"], named["06 Apr"], named["12 Apr"]) == ("Good Friday", "closed", "closed")
    working = {f"{utc(start):%d %b}" for start, _ in found.working_days}
    assert working & {"03 Apr", "04 Apr", "06 Apr", "10 Apr"} == set() and {"02 Apr", "07 Apr"} <= working


def test_an_order_is_on_site_when_the_last_day_of_its_lead_is_over(job: Read) -> None:
    orders = """orders:
  panes: {for: glass fit, made after: glass measure, lead: 10 working days}
  paint: {for: [paint, glass measure], ordered: 20 February, lead: 10 working days}
  brush: {for: paint second, lead: 1 working day}
"""
    panes, paint, brush = job("paint:\nglass:", orders).orders
    assert (panes.made_after, panes.arrives, panes.lead_days) == ("bathroom/glass/measure", None, 10)
    assert (panes.for_steps, brush.for_steps) == (("bathroom/glass/fit",), ("bathroom/paint/second",))
    assert paint.for_steps == ("bathroom/paint/first", "bathroom/paint/second", "bathroom/glass/measure")
    assert f"{utc(paint.ordered):%d %b} {utc(paint.arrives):%d %b %H:%M}" == "20 Feb 07 Mar 04:00"
    assert brush.ordered is None and f"{utc(brush.arrives):%d %b %H:%M}" == "25 Feb 04:00"


def test_a_booking_is_the_first_step_of_that_trade_at_that_minute(job: Read) -> None:
    more = "people:\n  plumber: {days: Tue}\n  inspector:\nbooked:\n  - inspector, Wed 11 March 9 am, bathroom pipes\n"
    (booking,) = job("pipes:", more).bookings
    assert (booking.step, booking.trade, str(booking.place)) == ("bathroom/pipes/look", "inspector", "job.yaml:16:5")
    assert f"{utc(booking.at):%d %b %H:%M}" == "11 Mar 12:00"


def test_the_house_is_read_with_its_hours_in_utc(job: Read) -> None:
    house = job("paint:", "house: {people live here: yes, noise: 09:00-15:00, water off: 2 h at a time}\n").house
    assert (house.lived_in, house.noise_words, house.services) == (True, "09:00-15:00", {"house water": 120})
    assert [f"{utc(a):%d %H}-{utc(b):%H}" for a, b in house.noise[6:8]] == ["08 12-18", "09 12-18"]


def said(found: Job, at: str) -> list[tuple[float | None, float | None, str]]:
    minute = int(utc(0).fromisoformat(f"{at}+00:00").timestamp() // 60)
    return [(s.temperature, s.humidity, s.how) for s in found.rooms[0].air.statements if s.start <= minute < s.end]


def test_air_holds_from_its_day_to_the_next_line_and_by_day_and_night(job: Read) -> None:
    air = "air:\n  16 March: heated to 20 C\n  2 March: 14 C 08:00-16:00, 9 C otherwise, 75 %\n"
    found = job("paint:", air)
    night, damp = (9.0, None, "stated"), (None, 0.75, "stated")
    assert said(found, "2026-03-02 06:00") == [night, damp]
    assert said(found, "2026-03-02 13:00") == [night, damp, (14.0, None, "stated")]
    assert said(found, "2026-02-24 13:00") == said(found, "2026-03-02 13:00")
    assert said(found, "2026-03-09 11:30") == [night, damp, (14.0, None, "stated")]
    assert said(found, "2026-03-17 06:00") == [night, damp, (20.0, None, "heated")]
    assert max(statement.end for statement in found.rooms[0].air.statements) > found.horizon + 90 * 1440


def test_a_rooms_own_air_stands_instead_of_the_jobs(job: Read) -> None:
    room = ROOM.replace("    already", "    air: damp basement\n    already")
    found = job("paint:", "air: 17 C 65 %\n", room)
    assert {statement.how for statement in found.rooms[0].air.statements} == {"in words"}
    assert isinstance(found.rooms[0].air.statements[0], AirStatement)
    assert found.assumed == ('bathroom: "damp basement" taken as 14 C, 80 %',)


def test_a_loggers_readings_stand_beside_what_is_said(job: Read, tmp_path: Path) -> None:
    (tmp_path / "logger.csv").write_text("time,temperature,humidity\n2026-03-01 08:00,8,80\n")
    found = job("paint:", "air: {readings: logger.csv, said: {2 March: 14 C 75 %}}\n")
    air = found.rooms[0].air
    assert [(reading.temperature, str(reading.place)) for reading in air.readings] == [(8.0, "logger.csv:2:1")]
    assert len(air.statements) == 1


def test_people_of_the_house_are_read_beside_the_job_or_one_folder_above(tmp_path: Path) -> None:
    (tmp_path / "people.yaml").write_text("format: 1\npeople:\n  you: {hours: 07:00-15:00, hands: 2}\n")
    folder = tmp_path / "back-lane"
    folder.mkdir()
    (folder / "job.yaml").write_text(HEAD + ROOM + "      paint:\n")
    above = read_job(folder, TODAY)
    assert (above.trades["you"].hands, above.trades["you"].place) == (2, Place("../people.yaml", 3, 3))
    (folder / "people.yaml").write_text("format: 1\npeople:\n  you:\n")
    assert read_job(folder / "job.yaml", TODAY).trades["you"].hands == 1


def test_a_job_file_may_have_a_name_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "attic.yaml").write_text(HEAD + ROOM + "      paint:\n")
    assert read_job(tmp_path / "attic.yaml", TODAY).place == Place("attic.yaml", 2, 1)


def test_ones_own_recipe_replaces_the_shipped_one(tmp_path: Path) -> None:
    text = (SHELF / "paint.yaml").read_text().replace("Two coats of paint", "Mine")
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "paint.yaml").write_text(text)
    assert read_recipe_library(tmp_path)["paint"].title == "Mine"
    assert read_recipe_library(None)["paint"].title == "Two coats of paint"


def test_reading_twice_gives_the_same_job(job: Read) -> None:
    assert job("membrane:\ntile:\nglass:") == job("membrane:\ntile:\nglass:")


def test_a_job_can_be_copied_and_sent_and_holds_no_text_of_a_file(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    found = read_job(demo_folder(), date(2027, 1, 25))
    assert pickle.loads(pickle.dumps(found)) == found == copy.deepcopy(found)


def test_the_shipped_recipes_and_the_demo_are_without_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    assert recipes_folder().is_dir() and demo_folder().is_dir()
    recipes = read_recipe_library()
    assert {path.stem for path in recipes_folder().glob("*.yaml")} == set(recipes)
    assert len(read_job(demo_folder(), date(2027, 1, 25)).steps) > 40


def test_every_link_names_a_step_and_a_wait_it_has(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    found = read_job(demo_folder(), date(2027, 1, 25))
    for step in found.steps:
        for link in step.links:
            assert isinstance(link, Link)
            assert link.purpose is None or found.step(link.id).wait_for(link.purpose) is not None
