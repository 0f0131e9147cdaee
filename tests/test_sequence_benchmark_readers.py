"""Published formats as networks of ours, on instances small enough to solve by hand; none is a published one."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random
from typing import Any

import pytest
from as_network import network
from checker import faults
from hypothesis import given, settings
from hypothesis import strategies as st
from published import Activity, Lag, Project
from readers import read, read_calendar, read_mplib, read_sch, read_sm
from room_files import many_rooms, one_room
from run import chosen
from solvers import Outcome, ours, plain
from table import Known, best_known, contradictions

from sequencer.solve import NoAnswer, solve

SM = """\
************************************************************************
jobs (incl. supersource/sink ):  6
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   4
   2        1          1           5
   3        1          1           6
   4        1          1           6
   5        1          1           6
   6        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       2    0
  3      1     2       2    0
  4      1     4       1    1
  5      1     2       3    0
  6      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    3    1
************************************************************************
"""


def test_four_activities_take_seven_since_no_two_of_three_fit_beside_each_other() -> None:
    """3 + 2 + 2: the second, third and fifth line take two, two and three of three."""
    project = read_sm(SM, "four")
    assert project.activities[2] == Activity(3 - 1, (2, 0))
    found = ours(project, 5, 1)
    assert found.starts is not None
    assert (found.makespan, found.bound, faults(project, found.starts)) == (7, 7, [])


def sch(latest: int, least: int = 0, capacity: int = 1) -> str:
    """Two activities of 4 and 3 units on one resource; the second starts `least` to `latest` after the first."""
    lines = [
        "2 1 0 0", "0 1 1 1 [0]", f"1 1 2 2 3 [{least}] [4]", f"2 1 2 3 1 [3] [{-latest}]", "3 1 0",
        "0 1 0 0", "1 1 4 1", "2 1 3 1", "3 1 0 0", str(capacity),
    ]  # fmt: skip
    return "\n".join(line.replace(" ", "\t") for line in lines)


@pytest.mark.parametrize(("latest", "capacity", "makespan"), [(4, 1, 7), (9, 1, 7), (4, 2, 4), (2, 2, 4)])
def test_a_maximal_lag_that_can_be_kept_leaves_the_shortest_plan(latest: int, capacity: int, makespan: int) -> None:
    project = read_sch(sch(latest, capacity=capacity), "two")
    assert Lag(2, 1, -latest) in project.lags
    found = ours(project, 5, 1)
    assert found.starts is not None
    assert (found.makespan, found.bound, faults(project, found.starts)) == (makespan, makespan, [])


@pytest.mark.parametrize(("latest", "least"), [(3, 0), (0, 0), (4, 5)])
def test_a_maximal_lag_that_nothing_can_keep_is_reported_as_proven(latest: int, least: int) -> None:
    """The second activity waits 4 for the resource; or must wait 5 and may wait 4."""
    project = read_sch(sch(latest, least), "two")
    with pytest.raises(NoAnswer) as raised:
        solve(network(project))
    assert raised.value.certain
    assert ours(project, 5, 1).infeasible


def test_an_activity_may_have_to_start_by_a_moment_after_the_start_of_all() -> None:
    """The first may start at 2 at the latest, the second takes the resource for 3: so the first goes first."""
    text = sch(9).replace("1\t1\t2\t2\t3\t[0]\t[4]", "1\t1\t2\t0\t3\t[-2]\t[4]").replace("\t[-9]", "\t[-30]")
    found = ours(read_sch(text.replace("0\t1\t1\t1\t[0]", "0\t1\t2\t1\t2\t[0]\t[0]"), "two"), 5, 1)
    assert found.starts is not None
    assert (found.starts[1] <= 2, found.makespan, found.bound) == (True, 7, 7)


MPLIB = """\
  2
   1
   2

  3    0
   1
   0   0   1 1:2
   4   2   1 1:3
   0   0   0

  4    0
   1
   0   0   2 2:2 2:3
   3   1   1 2:4
   5   1   1 2:4
   0   0   0
"""


def test_two_projects_share_what_there_is() -> None:
    """The first project takes all for 4 units, the second one half for 3 and for 5, side by side: 9."""
    project = read_mplib(MPLIB, "projects")
    assert (len(project.activities), project.capacities) == (9, (2,))
    found = ours(project, 5, 1)
    assert (found.makespan, found.bound) == (9, 9)


def calendar(tasks: list[tuple[float, list[str]]], days: list[int], shifts: list[tuple[str, str]]) -> str:
    """Two workers, one who knows a and b and one who knows b; made on a Friday."""
    return json.dumps({
        "generated_at": "2025-09-05T12:00:00",
        "tasks": [
            {"task_id": f"T{number}", "duration": hours, "required_skills": skills,
             "earliest_start": None, "deadline": None}
            for number, (hours, skills) in enumerate(tasks)
        ],
        "dependencies": [],
        "resources": [
            {"resource_id": "W1", "skills": {"a": 0.9, "b": 0.8}},
            {"resource_id": "W2", "skills": {"b": 1.0}},
        ],
        "calendar_requirements": {
            "shifts": [{"start": start, "end": end, "days": days} for start, end in shifts],
            "lunch_break": {"start": "12:00", "end": "13:00"},
            "holidays": ["2025-09-09"],
        },
    })  # fmt: skip


def units(day: int, hour: float) -> int:
    """Quarter hours from the midnight before the first day, a Monday."""
    return round(4 * (24 * day + hour))


DAY_SHIFT = [("08:00", "17:00")]
EVERY_DAY, MONDAYS = list(range(7)), [0]


@pytest.mark.parametrize(
    ("tasks", "days", "shifts", "end"),
    [
        ([(6.0, ["a"]), (3.0, ["a"])], EVERY_DAY, DAY_SHIFT, units(2, 9)),
        ([(6.0, ["a"]), (3.0, ["a"])], MONDAYS, DAY_SHIFT, units(7, 9)),
        ([(6.0, ["b"]), (3.0, ["b"])], EVERY_DAY, DAY_SHIFT, units(0, 15)),
        ([(6.0, ["a"]), (3.0, ["b"])], EVERY_DAY, DAY_SHIFT, units(0, 15)),
        ([(2.0, ["a", "b"]), (3.0, ["b"])], EVERY_DAY, DAY_SHIFT, units(0, 14)),
        ([(1.01, ["a"])], EVERY_DAY, DAY_SHIFT, units(0, 9.25)),
        ([(15.0, ["a"])], EVERY_DAY, [("08:00", "17:00"), ("17:00", "01:00")], units(1, 0)),
    ],
)  # fmt: skip
def test_work_pauses_over_breaks_nights_and_days_off(
    tasks: list[tuple[float, list[str]]], days: list[int], shifts: list[tuple[str, str]], end: int
) -> None:
    """Tuesday is a holiday. Nine hours of a Monday's eight; two who know b; one task that takes both of them; a task
    rounded up to quarter hours; a shift past midnight."""
    project = read_calendar(calendar(tasks, days, shifts), "calendar")
    for solver in (ours, plain):
        found = solver(project, 5, 1)
        assert found.starts is not None
        assert (found.makespan, found.bound, faults(project, found.starts)) == (end, end, [])


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_ours_and_the_plain_model_agree_on_small_projects_with_maximal_lags(seed: int) -> None:
    project = random_project(Random(seed))
    here, there = ours(project, 20, 1), plain(project, 20, 1)
    assert here.decided and there.decided
    assert (here.makespan, here.infeasible) == (there.makespan, there.infeasible)
    assert here.starts is None or faults(project, here.starts) == []


def random_project(draw: Random) -> Project:
    """Five activities on two resources; each pair may have a lag forwards and one backwards, of either sign."""
    inner = [Activity(draw.randint(0, 4), (draw.randint(0, 2), draw.randint(0, 2))) for _ in range(5)]
    lags = [Lag(0, number, 0) for number in range(1, 6)]
    lags += [Lag(number, 6, activity.length) for number, activity in enumerate(inner, start=1)]
    for one in range(1, 6):
        for other in range(one + 1, 6):
            if draw.random() < 0.4:
                lags.append(Lag(one, other, draw.randint(-3, 5)))
            if draw.random() < 0.4:
                lags.append(Lag(other, one, draw.randint(-8, 0)))
    nothing = Activity(0, (0, 0))
    return Project("random", (nothing, *inner, nothing), (2, 3), tuple(lags))


def test_the_checker_finds_what_is_wrong_with_a_plan() -> None:
    project = read_sm(SM, "four")
    sound = [0, 0, 3, 0, 5, 7]
    assert faults(project, sound) == []
    for place, start, word in [(0, 1, "begin"), (2, 1, "resource 0"), (4, 2, "activity 4"), (5, 6, "activity 5")]:
        wrong = [*sound]
        wrong[place] = start
        assert any(word in fault for fault in faults(project, wrong))


def test_the_checker_finds_work_in_closed_hours() -> None:
    project = read_calendar(calendar([(1.0, ["a"])], EVERY_DAY, DAY_SHIFT), "calendar")
    assert faults(project, [0, units(0, 8), units(0, 9)]) == []
    assert any("nobody works" in fault for fault in faults(project, [0, units(0, 12), units(0, 14)]))


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("big.sm", SM.replace("  5      1     2       3", "  5      1     2       4"), "more than there is"),
        ("modes.sm", SM.replace("   2        1 ", "   2        2 "), "modes"),
        ("modes.sch", sch(4).replace("1\t1\t2\t2", "1\t2\t2\t2"), "modes"),
        ("late.txt", MPLIB.replace("  3    0", "  3    6"), "later"),
        ("across.txt", MPLIB.replace("1 1:3", "1 2:3"), "another project"),
    ],
)
def test_what_is_no_such_instance_is_refused(tmp_path: Path, name: str, text: str, told: str) -> None:
    (tmp_path / name).write_text(text, "utf-8")
    with pytest.raises(ValueError, match=told):
        read(tmp_path / name)


def test_the_files_of_a_sample_are_evenly_spread() -> None:
    files = [Path(f"{number}.sm") for number in range(10)]
    assert chosen(files, 3, 1, "") == [files[0], files[3], files[6]]
    assert chosen(files, 0, 4, "") == [files[0], files[4], files[8]]
    assert chosen(files, 0, 1, "7,2,x") == [files[2], files[7]]
    assert chosen(files, 0, 1, "") == chosen(files, 99, 1, "") == files


def test_best_known_values_are_read_and_contradictions_told(tmp_path: Path) -> None:
    table = tmp_path / "best_known.csv"
    table.write_text("set,file,kind,lb,ub,status,sources\ns,a/x.sm,k,5,6,open,o\ns,a/y.sch,k,,,infeasible,o\n", "utf-8")
    known = best_known(table)
    assert known == {"x.sm": Known(5, 6, False), "y.sch": Known(None, None, True)}
    fine: dict[str, Any] = {"bound": 5, "infeasible": False, "seconds": 0.0}
    assert contradictions(Outcome([0, 6], **fine), known["x.sm"]) == []
    assert contradictions(Outcome([0, 4], **fine), known["x.sm"]) == ["plan 4 below the known bound 5"]
    assert contradictions(Outcome([0, 9], **fine), known["y.sch"]) == ["has a plan of 9, known to be infeasible"]
    assert contradictions(Outcome([0, 9], **{**fine, "bound": 7}), known["x.sm"]) == ["bound 7 above the known plan 6"]
    assert contradictions(Outcome(None, 0, True, 0.0), known["x.sm"]) == ["said to be infeasible, known plan 6"]


def test_like_rooms_are_like_and_their_crews_grow(tmp_path: Path) -> None:
    two, forty = many_rooms(tmp_path / "2", 2, {}), many_rooms(tmp_path / "40", 40, {"plumber": 9})
    assert len(forty.steps) == 20 * len(two.steps)
    assert forty.trades["you"].hands > two.trades["you"].hands
    assert forty.trades["plumber"].hands == 9


def test_a_seed_writes_the_same_room_again(tmp_path: Path) -> None:
    for seed in range(6):
        one_room(tmp_path / f"a{seed}", seed)
    one_room(tmp_path / "b3", 3)
    text = {path.parent.name: path.read_text("utf-8") for path in tmp_path.glob("*/job.yaml")}
    assert text["a3"] == text["b3"]
    assert len(set(text.values())) == 6
