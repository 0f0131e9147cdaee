"""The log: what an inspector or a warranty asks for, each with the air it had."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from golden_text import same_as_golden

from sequencer.answers.log import Log, log
from sequencer.files import read_job
from sequencer.views.log import log_text
from sequencer.views.log_json import log_as_json

JOB = """format: 1
job: tiny
title: Shower room
place: {zone: Europe/London}
start: Mon 2 March 2026
air: 18 C 60 %
people:
  inspector: {hours: 09:00-15:00, hour known: no}
rooms:
  bath:
    size: 2 m by 2 m, 2.5 m high
    areas: {shower floor: 1 m2}
    recipes:
      wet:
"""
WET = """format: 1
recipe: wet
title: Membrane, test and cable
works on: [shower floor]
sources: {c: "common practice, no source"}
steps:
  coat: {do: Membrane in two coats, hours: 2 h (c), record: [wet thickness, lot numbers, temperature and humidity]}
  fill:
    do: Fill to the mark
    hours: 1 h (c)
    makes: water
    record: [level at the start, time]
    keep off: until drain is done
    ready for: {read: "after 24 h, fixed (c)"}
  read: {by: inspector, hours: 1 h (c), hold: flood test, record: [level at the end, who read it]}
  drain: {do: Let the water out, hours: 1 h (c)}
  cable: {do: Lay the cable, hours: 1 h (c), record: [ohms laid, photo of the whole cable]}
  look: {do: Look at the cable, by: inspector, hours: 1 h (c), hold: heating cable}
"""
FACTS = (
    ("Mon 2 March 2026 09:30", "measured bath, 16 C 70 %"),
    ("Mon 2 March 2026 10:00", "done bath/wet/coat"),
    ("Mon 2 March 2026 10:00", "note bath/wet/coat, lot 44-17 of membrane"),
    ("Mon 2 March 2026 10:00", "measured bath/wet/coat, wet thickness 0.9 mm, at least 1 mm"),
    ("Mon 2 March 2026 11:00", "done bath/wet/fill"),
    ("Mon 2 March 2026 11:00", "measured bath/wet/fill, level 50 mm"),
    ("Tue 3 March 2026 14:00", "measured bath/wet/read, level 48.5 mm"),
    ("Tue 3 March 2026 14:00", "passed bath/wet/read, the town's inspector"),
    ("Tue 3 March 2026 15:00", "done bath/wet/drain"),
    ("Tue 3 March 2026 16:00", "measured bath/wet/cable, ohms laid 52.3 ohm, 46.8 to 57.2 ohm"),
    ("Tue 3 March 2026 16:00", "done bath/wet/cable"),
    ("Wed 4 March 2026 11:00", "failed bath/wet/look, kinked at the door"),
    ("Wed 4 March 2026 12:00", "told client, a day later"),
)
WRITTEN = "Wed 4 March 2026 12:05"


@pytest.fixture
def logged(tmp_path: Path) -> Log:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "wet.yaml").write_text(WET)
    (tmp_path / "job.yaml").write_text(JOB)
    lines = (f"{n}. {at}, written {at if n < 12 else WRITTEN}: {words}\n" for n, (at, words) in enumerate(FACTS, 1))
    (tmp_path / "site-book.txt").write_text("format: 1\n" + "".join(lines))
    return log(read_job(tmp_path, date(2026, 3, 4)))


def test_the_log_as_text(logged: Log) -> None:
    same_as_golden("log.txt", log_text(logged))


def test_a_water_test_has_its_levels_its_hours_and_its_air(logged: Log) -> None:
    (test,) = logged.tests
    assert (test.hold.id, test.fill.id, test.lower) == ("bath/wet/read", "bath/wet/fill", 1.5)
    assert test.verdict is not None and test.verdict.kind == "passed"
    assert test.air is not None
    assert (test.air.coldest, test.air.warmest, test.air.hours) == (16.0, 18.0, 27)
    assert test.air.read == 11


def test_every_fact_stands_in_one_list(logged: Log) -> None:
    lists = (logged.verdicts, logged.readings, logged.layers, logged.air, logged.lots, logged.other)
    numbers = [one.fact.number for told in lists for one in told]
    in_the_test = [6, 7, 8]
    assert sorted(numbers + in_the_test) == list(range(1, len(FACTS) + 1))


def test_what_a_recipe_asks_for_and_nobody_wrote_down_is_named(logged: Log) -> None:
    assert {step.id: items for step, items in logged.missing} == {"bath/wet/cable": ("photo of the whole cable",)}


def test_the_log_as_json_says_the_same(logged: Log) -> None:
    read = json.loads(log_as_json(logged))
    assert read["kind"] == "log"
    (test,) = read["tests"]
    assert (test["lower"], test["level_at_start"]["value"]["figure"]) == (1.5, 50.0)
    assert test["air"]["temperature"] == [16.0, 18.0]
    thickness = read["readings"][0]
    assert (thickness["value"]["within"], thickness["air"]["how_temperature"]) == (False, "reading")
    assert read["missing"] == [{"step": "bath/wet/cable", "record": ["photo of the whole cable"]}]


def test_without_a_fact_the_log_says_so(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "wet.yaml").write_text(WET)
    (tmp_path / "job.yaml").write_text(JOB)
    assert log_text(log(read_job(tmp_path, date(2026, 3, 4)))).endswith("\nNothing stands in the site book.\n")
