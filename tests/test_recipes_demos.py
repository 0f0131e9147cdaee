"""Sentences on the second and the third demo: an en-suite without a curb, and a powder room refreshed by one man."""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest
from demo_job import ROOT

from sequencer.files import read_job
from sequencer.files.shelf import DEMOS, demo_folder
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY

DAYS = {"demo": date(2027, 1, 25), "demo-2": date(2026, 9, 7), "demo-3": date(2027, 10, 4)}
"""A day a week before each begins."""


@cache
def job_of(name: str) -> Job:
    return read_job(demo_folder(name), DAYS[name])


@cache
def first_plan(name: str) -> Plan:
    """A plan that is not yet the shortest: what holds in it holds all the more in the one shown."""
    return plan_of(job_of(name), effort=0)


def working_days(name: str) -> int:
    plan = first_plan(name)
    return sum(1 for start, end in job_of(name).working_days if end > plan.start and start < plan.finish)


def test_every_folder_of_a_demo_is_shipped() -> None:
    assert {path.parent.name for path in (ROOT / "docs").glob("*/job.yaml")} == set(DEMOS)


@pytest.mark.parametrize("name", ["demo-2", "demo-3"])
def test_its_promise_is_kept(name: str) -> None:
    plan = first_plan(name)
    assert plan.promise is not None and plan.finish <= plan.promise


def test_a_powder_room_is_refreshed_in_two_to_four_weeks() -> None:
    """Published: 3 to 7 days without tile, a half bath 13 to 15 working days (trade articles)."""
    assert 7 <= working_days("demo-3") <= 16


def test_glass_and_stone_are_measured_on_what_stands_and_take_their_lead() -> None:
    job, plan = job_of("demo-2"), first_plan("demo-2")
    for measure, fit, on, days in [
        ("stone-top/template", "stone-top/fit", "vanity/set", 10),
        ("glass-screen/measure", "glass-screen/fit", "wall-tile-large/set", 12),
    ]:
        measured, fitted, stands = (plan.step(f"ensuite/{id}") for id in (measure, fit, on))
        assert stands.end <= measured.start
        between = [start for start, end in job.working_days if start > measured.end and end <= fitted.start]
        assert len(between) >= days


def test_the_flood_stands_behind_its_dam_before_the_mat_covers_the_membrane() -> None:
    plan = first_plan("demo-2")
    dam, read, drain = (plan.step(f"ensuite/curbless-membrane/{name}") for name in ("dam", "read", "drain"))
    assert DAY <= read.start - dam.end <= 3 * DAY
    assert drain.end <= plan.step("ensuite/heat-mat/lay").start


def test_the_cable_is_read_boxed_laid_covered_and_tiled_before_the_joints_are_filled() -> None:
    plan = first_plan("demo-2")
    boxed, laid, seen, covered, tiled = (
        plan.step(f"ensuite/heat-mat/{name}") for name in ("boxed", "laid", "look", "covered", "tiled")
    )
    tile, joints = plan.step("ensuite/floor-tile-large/set"), plan.step("ensuite/grout/floor")
    assert boxed.end <= laid.start and laid.end <= seen.start and seen.end <= covered.start
    assert covered.end <= tile.start and tile.end <= tiled.start and tiled.end <= joints.start


def test_every_reading_of_the_cable_stands_beside_what_its_label_allows() -> None:
    """61 ohm within 10 %."""
    for name in ("boxed", "laid", "covered", "tiled"):
        record = job_of("demo-2").step(f"ensuite/heat-mat/{name}").record
        assert f"resistance {name}, 54.9 to 67.1 ohm" in record


def test_the_floor_is_heated_four_weeks_after_its_last_cement_and_the_plan_says_when() -> None:
    plan = first_plan("demo-2")
    on = plan.milestones["floor heat on"]
    assert on - plan.step("ensuite/grout/polish floor").end >= 28 * DAY
    assert on > plan.finish
