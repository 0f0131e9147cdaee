"""Who is in which room, day by day; and three rooms whose drains are tied in together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from golden_text import same_as_golden
from plans import orchard_row
from tied_rooms import ROOMS, tied_rooms

from sequencer.audit import Times, audit
from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import airs, plan_of
from sequencer.terms.job import Job
from sequencer.terms.place import Faulty
from sequencer.views.rooms import days_of
from sequencer.views.rooms_table import rooms_page, rooms_plain

TODAY = date(2026, 3, 2)


@lru_cache
def tied() -> tuple[Job, Plan]:
    with TemporaryDirectory() as folder:
        job = read_job(tied_rooms(Path(folder) / "gable"), TODAY)
    return job, plan_of(job, 0.3)


def test_no_subfloor_is_closed_before_the_drains_of_all_rooms_are_in() -> None:
    _, plan = tied()
    drains_in = max(plan.step(f"{room}/drain/tie in").end for room in ROOMS)
    drains_run = max(plan.step(f"{room}/drain/run").end for room in ROOMS)
    assert all(plan.step(f"{room}/close-floor/close").start >= drains_in for room in ROOMS)
    assert all(plan.step(f"{room}/drain/tie in").start >= drains_run for room in ROOMS)


def test_the_audit_finds_a_subfloor_closed_over_a_drain_of_another_room() -> None:
    job, plan = tied()
    last = max(ROOMS, key=lambda room: plan.step(f"{room}/drain/tie in").end)
    other = next(room for room in ROOMS if room != last)
    pieces = dict(plan.pieces)
    early = plan.step(f"{last}/drain/tie in").start - 180
    pieces[f"{other}/close-floor/close"] = ((early, early + 180),)
    said = audit(job, airs(job), Times(pieces, plan.finish))
    assert f"{other}/close-floor/close needs {last}: drain in, which nobody has given by then" in said


def test_a_room_that_is_not_there_gives_nothing(tmp_path: Path) -> None:
    with pytest.raises(Faulty) as faulty:
        read_job(tied_rooms(tmp_path / "gable", (*ROOMS, "attic")), TODAY)
    assert '"close" of "close-floor" needs "drain in" of "attic", which is no room of this job' in str(faulty.value)


def test_three_rooms_day_by_day_are_as_they_were_read() -> None:
    _, plan = tied()
    same_as_golden("rooms-80.txt", rooms_page((plan,)))
    same_as_golden("rooms-plain.txt", rooms_plain((plan,)))


def test_rooms_fold_into_tables_as_wide_as_the_page() -> None:
    _, plan = tied()
    for width in (60, 80, 120):
        lines = rooms_page((plan,), width).splitlines()
        assert max(map(len, lines)) <= width
        assert sum(line.startswith(" March") for line in lines) == {60: 2, 80: 1, 120: 1}[width]


@pytest.mark.parametrize(("rooms", "tables"), [(2, 1), (4, 2), (10, 4)])
def test_a_house_of_many_rooms_folds_into_tables_that_show_each_room_once(rooms: int, tables: int) -> None:
    _, plan = tied()
    names = [f"room {number}" for number in range(rooms)]
    steps = [replace(step, room=name) for name in names for step in plan.steps if step.room == ROOMS[0]]
    house = replace(plan, steps=tuple(steps), room_titles={name: name for name in names})
    lines = rooms_page((house,)).splitlines()
    heads = [line for line in lines if line.startswith(" March")]
    assert len(heads) == tables
    assert [name for head in heads for name in names if f"| {name} " in f"{head} "] == names
    assert max(map(len, lines)) <= 80


def test_rooms_of_several_jobs_stand_under_the_names_of_their_jobs() -> None:
    _, plan = tied()
    other = replace(orchard_row(), days_late=2, promise=orchard_row().finish - 2 * 1440)
    page = rooms_page((plan, other))
    assert page.splitlines()[0].startswith("Three rooms at Gable House: hand over ")
    assert "missed by 2 days" in page
    assert {room.job for room in days_of((plan, other)).rooms} == {plan.title, other.title}
    assert max(map(len, page.splitlines())) <= 80


def test_every_step_stands_in_its_room_on_each_of_its_days() -> None:
    _, plan = tied()
    told = rooms_plain((plan,)).replace("\n", " ")
    found = " ".join(told.split())
    for step in plan.steps:
        assert step.title in found
