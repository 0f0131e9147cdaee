"""The plan people were told: kept whole, looked back at by the next plan, replaced only if somebody says so."""

from __future__ import annotations

import json
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from sequencer.cli import main
from sequencer.desk.accepted import ToldMeanwhile, accept
from sequencer.files import read_job
from sequencer.files.told import Kept, read_told, texts_of
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.place import Faulty

TODAY = date(2026, 3, 2)
JOB = """format: 1
job: tiny
place: {zone: America/Halifax}
start: Mon 2 March 2026
people:
  plumber: {days: Mon to Fri}
rooms:
  bath:
    recipes:
      first:
      second: {after: first}
"""
FIRST = """format: 1
recipe: first
title: First fix
works on: []
sources: {c: "common practice, no source"}
steps:
  pipes: {hours: 4 h (c), by: plumber}
  close: {hours: 16 h (c)}
"""
SECOND = """format: 1
recipe: second
title: Second fix
works on: []
sources: {c: "common practice, no source"}
steps:
  taps: {hours: 2 h (c), by: plumber}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "first.yaml").write_text(FIRST, "utf-8")
    (tmp_path / "recipes" / "second.yaml").write_text(SECOND, "utf-8")
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    return tmp_path


def change(folder: Path, file: str, old: str, new: str) -> None:
    text = (folder / file).read_text("utf-8")
    assert old in text
    (folder / file).write_text(text.replace(old, new), "utf-8")


def later(folder: Path) -> None:
    """Your work takes a day more."""
    change(folder, "job.yaml", "      first:\n", "      first: {change: {close: {hours: 24 h (mine)}}}\n")


def shell(folder: Path, *words: str) -> int:
    return main([words[0], str(folder), *words[1:], "--today", TODAY.isoformat()])


def planned(folder: Path, **more: Any) -> Plan:
    return plan_of(read_job(folder, TODAY, **more))


def told(folder: Path) -> Kept:
    kept = read_told(folder, "tiny")
    assert kept is not None
    return kept


def test_the_plan_people_were_told_is_read_as_it_was_accepted(folder: Path) -> None:
    plan = planned(folder)
    assert shell(folder, "accept") == 0
    kept = told(folder)
    assert kept.told.number == 1
    assert kept.told.finish == plan.finish
    assert kept.told.pieces == plan.pieces
    assert [(visit.id, visit.steps) for visit in kept.told.visits] == [(v.id, v.steps) for v in plan.visits]
    assert kept.texts == {"first": FIRST, "second": SECOND}


def test_a_plan_that_is_as_told_says_so_and_is_not_written_again(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shell(folder, "accept") == 0
    capsys.readouterr()
    assert shell(folder, "accept") == 0
    out, err = capsys.readouterr()
    assert out == "nothing moves\n"
    assert "people were told just this already" in err
    assert told(folder).told.number == 1


def test_what_moves_is_told_and_waits_for_a_person(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shell(folder, "accept")
    later(folder)
    capsys.readouterr()
    assert shell(folder, "accept") == 4
    out, err = capsys.readouterr()
    assert out.splitlines() == [
        "hand over: told Wed 4 March 14:00, now Thu 5 March 14:00, 1 day later",
        "plumber: told Wed 4 March 12:00, now Thu 5 March 12:00",
    ]
    assert "nothing is accepted" in err
    assert told(folder).told.number == 1
    assert shell(folder, "accept", "--yes") == 0
    assert told(folder).told.number == 2
    assert told(folder).told.finish == planned(folder).finish


ORDERS = "orders:\n  basin: {for: second taps, lead: 1 working day, check: 0 min}\n"
MOVES = (
    "basin: told as needed Wed 4 March 12:00, now Thu 5 March 12:00; order by Tue 3 March instead of Mon 2 March"
)


def test_an_order_that_is_needed_at_another_moment_is_told_old_and_new(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    change(folder, "job.yaml", "rooms:", f"{ORDERS}rooms:")
    shell(folder, "accept")
    plan_file = folder / "told" / "tiny" / "plan.json"
    whole = json.loads(plan_file.read_text())
    assert list(whole["orders"]) == ["basin"]
    later(folder)
    capsys.readouterr()
    assert shell(folder, "accept", "-n") == 0
    assert MOVES in capsys.readouterr().out.splitlines()
    shell(folder, "plan", "--json")
    (order,) = json.loads(capsys.readouterr().out)["orders"]
    assert (order["told_needed"], order["told_order_by"]) == ("2026-03-04T12:00:00-04:00", "2026-03-03T00:00:00-04:00")

    del whole["orders"]
    plan_file.write_text(json.dumps(whole))
    assert shell(folder, "accept", "-n") == 0
    kept_then = MOVES.partition(" instead of")[0]
    assert kept_then in capsys.readouterr().out.splitlines()


def test_a_dry_run_says_what_would_be_told_and_writes_nothing(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shell(folder, "accept", "-n") == 0
    assert read_told(folder, "tiny") is None
    shell(folder, "accept")
    later(folder)
    capsys.readouterr()
    assert shell(folder, "accept", "--dry-run", "--yes") == 0
    assert "would make this the plan people were told" in capsys.readouterr().err
    assert told(folder).told.number == 1


@pytest.mark.parametrize(("answer", "code"), [("yes", 0), ("no", 4)])
def test_at_a_terminal_the_person_is_asked(
    answer: str, code: int, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from sequencer.cli.commands import accept as command

    shell(folder, "accept")
    later(folder)
    monkeypatch.setattr(command, "somebody_there", lambda: True)
    monkeypatch.setattr(command, "ask", lambda *_: answer)
    assert shell(folder, "accept") == code


def test_the_diary_says_what_moves_against_what_people_were_told(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shell(folder, "plan", "--plain")
    assert "AGAINST WHAT PEOPLE WERE TOLD" not in capsys.readouterr().out
    shell(folder, "accept")
    capsys.readouterr()
    shell(folder, "plan", "--plain")
    assert "AGAINST WHAT PEOPLE WERE TOLD\n nothing moves\n" in capsys.readouterr().out
    later(folder)
    shell(folder, "plan", "--plain")
    said = capsys.readouterr().out
    assert " hand over: told Wed 4 March 14:00, now Thu 5 March 14:00, 1 day later\n" in said
    assert " one visit moves that people were told of, the fewest possible\n" in said
    shell(folder, "plan", "--json")
    read = json.loads(capsys.readouterr().out)
    assert read["told"]["finish"] == "2026-03-04T14:00:00-04:00"
    assert [visit["told"] for visit in read["visits"]] == ["2026-03-02T08:00:00-04:00", "2026-03-04T12:00:00-04:00"]


def test_a_firm_visit_that_cannot_be_kept_waits_for_a_person_too(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with (folder / "job.yaml").open("a", encoding="utf-8") as job:
        job.write("booked:\n  - plumber, Tue 3 March 08:00, second taps\n")
    assert shell(folder, "accept") == 4
    said = "plumber, taps: booked for Tue 3 March 08:00, cannot be kept, now Wed 4 March 12:00"
    assert said in capsys.readouterr().out.splitlines()
    assert read_told(folder, "tiny") is None
    assert shell(folder, "accept", "--yes") == 0


def test_the_json_of_accept_says_the_same(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shell(folder, "accept")
    later(folder)
    capsys.readouterr()
    assert shell(folder, "accept", "--json") == 4
    read = json.loads(capsys.readouterr().out)
    assert (read["kind"], read["told_finish"]) == ("accept", "2026-03-04T14:00:00-04:00")
    assert [visit["moved"] for visit in read["visits"]] == [[], ["bath/second/taps"]]


def test_a_visit_keeps_its_name_and_no_number_is_given_twice(folder: Path) -> None:
    """The first visit is called off; the second keeps its name, and a new one gets a number of its own."""
    assert [visit.id for visit in planned(folder).visits] == ["plumber 1", "plumber 2"]
    shell(folder, "accept")
    change(folder, "recipes/first.yaml", ", by: plumber}", "}")
    plan = planned(folder, new_recipes=True)
    assert [visit.id for visit in plan.visits] == ["plumber 2"]
    assert [visit.id for visit in plan.called_off] == ["plumber 1"]
    assert shell(folder, "accept", "--new-recipes", "--yes") == 0
    change(folder, "recipes/first.yaml", "pipes: {hours: 4 h (c)}", "pipes: {hours: 4 h (c), by: plumber}")
    assert [visit.id for visit in planned(folder, new_recipes=True).visits] == ["plumber 3", "plumber 2"]


def test_a_recipe_that_changed_is_named_and_not_used_until_it_is_accepted(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shell(folder, "accept")
    finish = planned(folder).finish
    change(folder, "recipes/first.yaml", "hours: 16 h (c)", "hours: 24 h (c)")
    plan = planned(folder)
    assert plan.finish == finish
    assert plan.recipes_kept == (("first", "recipes/first.yaml"),)
    capsys.readouterr()
    shell(folder, "plan", "--plain")
    said = capsys.readouterr().out
    assert "RECIPES CHANGED SINCE PEOPLE WERE TOLD\n first: changed since (recipes/first.yaml)" in said
    assert "accept --new-recipes takes the new texts" in said
    assert shell(folder, "accept", "--yes") == 0
    assert told(folder).texts["first"] == FIRST
    assert shell(folder, "plan", "--new-recipes") == 0
    assert "now Thu 5 March 14:00" in capsys.readouterr().out
    assert shell(folder, "accept", "--new-recipes") == 4
    assert shell(folder, "accept", "--new-recipes", "--yes") == 0
    assert told(folder).texts["first"] == (folder / "recipes" / "first.yaml").read_text("utf-8")
    assert planned(folder).recipes_kept == ()
    assert planned(folder).finish > finish
    assert sorted(path.name for path in (folder / "told" / "tiny").glob("*.yaml")) == ["first.2.yaml", "second.1.yaml"]


def test_a_recipe_that_is_gone_is_still_planned_with(folder: Path) -> None:
    shell(folder, "accept")
    (folder / "recipes" / "second.yaml").unlink()
    plan = planned(folder)
    assert plan.recipes_kept == (("second", ""),)
    assert plan.step("bath/second/taps").work_minutes == 120
    with pytest.raises(Faulty):
        planned(folder, new_recipes=True)


def test_a_changed_recipe_with_a_fault_is_told_of_though_it_is_not_used(folder: Path) -> None:
    shell(folder, "accept")
    change(folder, "recipes/first.yaml", "hours: 16 h (c)", "hours: many (c)")
    with pytest.raises(Faulty) as faulty:
        read_job(folder, TODAY)
    assert [fault.place.file for fault in faulty.value.faults] == ["recipes/first.yaml"]


class Kill(BaseException):
    """The end of the process, wherever it stands."""


def _killed_at(monkeypatch: pytest.MonkeyPatch, number: int) -> None:
    """Before the so many-th file is put in place, or taken away."""
    left = iter(range(number, -1, -1))
    put, take = Path.replace, Path.unlink

    def step() -> None:
        if next(left, 1) == 0:
            raise Kill

    def replace(self: Path, target: Path) -> Path:
        step()
        return put(self, target)

    def unlink(self: Path, missing_ok: bool = False) -> None:
        if ".new" not in self.name:
            step()
        take(self, missing_ok)

    monkeypatch.setattr(Path, "replace", replace)
    monkeypatch.setattr(Path, "unlink", unlink)


def test_whoever_is_killed_leaves_the_old_plan_or_the_new_one_whole(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shell(folder, "accept")
    old = told(folder)
    for name in ("first", "second"):
        change(folder, f"recipes/{name}.yaml", "h (c)", "h 15 min (c)")
    job = read_job(folder, TODAY, new_recipes=True)
    plan, texts = plan_of(job), texts_of(folder, job, None)
    whole = []
    for number in range(6):
        with monkeypatch.context() as patch:
            _killed_at(patch, number)
            with suppress(Kill):
                accept(folder, plan, told(folder), texts)
        kept = told(folder)
        assert kept == old or (kept.texts == texts and kept.told.pieces == plan.pieces)
        whole.append(kept == old)
    assert whole[:2] == [True, True]
    assert not whole[-1]
    texts_there = sorted(path.name for path in (folder / "told" / "tiny").glob("*.yaml"))
    assert texts_there == sorted(told(folder).files.values())


def test_what_somebody_killed_had_begun_to_write_goes_with_the_next_plan(folder: Path) -> None:
    home = folder / "told" / "tiny"
    home.mkdir(parents=True)
    (home / ".plan.json.x1.new").write_text("{", "utf-8")
    assert shell(folder, "accept") == 0
    assert sorted(path.name for path in home.iterdir()) == [".lock", "first.1.yaml", "plan.json", "second.1.yaml"]


def test_a_plan_made_before_another_was_accepted_does_not_replace_it(folder: Path) -> None:
    job = read_job(folder, TODAY)
    plan, texts = plan_of(job), texts_of(folder, job, None)
    assert accept(folder, plan, None, texts)
    with pytest.raises(ToldMeanwhile):
        accept(folder, plan, None, texts)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ("{", "told/tiny/plan.json:1:2: this was not written by the program; put the file back"),
        (("number", 0), 'told/tiny/plan.json:1:1: "number" is not as the program writes it'),
        (("format", 2), "told/tiny/plan.json:1:1: this program reads format 1, not 2"),
        (("extra", 2), '"extra" is not as the program writes it'),
        (("recipes", {"first": "../first.1.yaml"}), '"../first.1.yaml" is no file of the recipe "first"'),
        (("recipes", {"first": "first.9.yaml"}), "told/tiny/first.9.yaml:1:1: there is no such file"),
        (("steps", {}), 'the visit "plumber 1" names "bath/first/pipes", which is no step here'),
    ],
)
def test_a_file_that_is_not_as_written_is_told_of(
    wrong: str | tuple[str, object], said: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shell(folder, "accept")
    path = folder / "told" / "tiny" / "plan.json"
    text = wrong if isinstance(wrong, str) else json.dumps({**json.loads(path.read_text("utf-8")), wrong[0]: wrong[1]})
    path.write_text(text, "utf-8")
    capsys.readouterr()
    assert shell(folder, "plan") == 2
    assert said in capsys.readouterr().err
