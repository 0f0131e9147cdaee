"""The day on site and the day it breaks, from the shell: files, the site book, exit codes, nothing assumed."""

from __future__ import annotations

import json
from pathlib import Path
from shutil import copytree, ignore_patterns
from typing import Any

import pytest
from tiny_folder import folder

from sequencer.cli import main
from sequencer.files.book_line import BOOK_FILE

PEOPLE = """people:
  plumber: {days: Mon to Fri}
  electrician: {days: Mon to Fri}
"""
PIPES = """format: 1
recipe: pipes
title: Pipes run
works on: [ceiling]
sources: {c: "common practice, no source"}
steps:
  run: {do: Pipes run, by: plumber, hours: 4 h (c)}
  hide: {do: Pipes boxed in, hours: 2 h (c), makes: [hand dust]}
  light: {do: Light over the pipes, by: electrician, hours: 1 h (c)}
  look: {do: Pipes seen, hours: 0.25 h (c), hold: pipes, if failed: [run]}
"""
TODAY = ["--today", "2026-03-02"]
AT = ["--at", "00:30"]
"""Told before anybody works, so that the day itself is still to come."""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A bath with a bed of mortar and pipes behind the wall, promised for Thursday."""
    made = folder(tmp_path, "20 C 50 %", uses="      pipes:\n", files={"recipes/pipes.yaml": PIPES})
    text = (made / "job.yaml").read_text("utf-8").replace("air:", f"{PEOPLE}promise: Thu 5 March 2026\nair:", 1)
    (made / "job.yaml").write_text(text, encoding="utf-8")
    return made


def told(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    code = main([*words])
    out, err = capsys.readouterr()
    return code, out, err


def document(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    code, out, _ = told(capsys, *words, "--json")
    assert code in (0, 4)
    found: dict[str, Any] = json.loads(out)
    return found


@pytest.mark.parametrize("command", ["today", "week", "sign"])
def test_the_day_is_told_from_the_files_as_text_and_as_json(
    command: str, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, _ = told(capsys, command, str(job), *TODAY, "--plain")
    assert code == 0
    assert max(map(len, out.splitlines())) <= 80
    assert document(capsys, command, str(job), *TODAY)["kind"] == command


def test_may_says_no_and_then_yes_and_ends_with_0_either_way(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["may", "I", "finish", "the", "bed", "--job", str(job)]
    code, out, _ = told(capsys, *asked, *TODAY, "--at", "15:00")
    assert code == 0 and out.startswith("No: finish")
    code, out, _ = told(capsys, *asked, "--today", "2026-03-04", "--at", "14:30")
    assert code == 0 and out.startswith("Yes: finish")


def test_may_walk_asks_the_surface(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["may", "walk", "on", "the", "floor", "--job", str(job), "--today", "2026-03-04", "--at", "08:00"]
    assert told(capsys, *asked)[1].startswith("No: walk floor")


def test_may_of_what_nobody_knows_ends_with_2(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = told(capsys, "may", "fly", "--job", str(job), *TODAY)
    assert (code, out) == (2, "")
    assert 'nothing here is called "fly"; write one of: ' in err


def test_who_is_late_is_written_first_and_then_planned_with(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = told(capsys, "late", "plumber", "--until", "4 March", "--job", str(job), *TODAY, *AT)
    assert code == 0
    assert "late plumber, until Wed 4 March 2026" in (job / BOOK_FILE).read_text("utf-8")
    assert "written: 1. Mon 2 March 2026 00:30" in err
    assert "Pipes run (plumber): from Mon 2 March 08:00 to Wed 4 March 08:00" in " ".join(out.split())


def test_so_many_days_late_counts_working_days_from_the_visit(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = told(capsys, "late", "plumber", "--days", "2", "--job", str(job), *TODAY, *AT)
    assert code == 0
    assert "late plumber, until Wed 4 March 2026" in err


def test_if_says_the_same_and_writes_nothing(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = sorted(path.name for path in job.rglob("*"))
    thought = document(capsys, "if", "late", "plumber", "--until", "4 March", "--job", str(job), *TODAY)
    assert sorted(path.name for path in job.rglob("*")) == before
    written = document(capsys, "late", "plumber", "--until", "4 March", "--job", str(job), *TODAY)
    for key in ("finish", "was", "calls", "visits"):
        assert thought[key] == written[key], key


def test_if_takes_several_changes_joined_by_and(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["late", "plumber", "--until", "4 March", "--and", "away", "electrician", "4 March to 6 March"]
    found = document(capsys, "if", *words, "--job", str(job), *TODAY)
    assert [(fact["kind"], fact["about"]) for fact in found["facts"]] == [("late", "plumber"), ("away", "electrician")]
    assert {visit["trade"] for visit in found["visits"]} == {"plumber", "electrician"}


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["sleep", "plumber"], '"sleep" is no change; write one of: late, away'),
        (["late", "dragon", "--until", "4 March"], 'nobody under people is called "dragon"'),
        (["late", "plumber", "--days", "0"], "nobody comes no days later"),
        (["found", "rot"], "say what was found and how long it takes"),
        (["found", "rot 6 h"], "which step brought it to light"),
    ],
)
def test_a_change_that_cannot_be_ends_with_2_and_says_what_to_write(
    words: list[str], said: str, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = told(capsys, "if", *words, "--job", str(job), *TODAY)
    assert (code, out) == (2, "")
    assert said in err


def test_found_work_hangs_on_the_step_that_brought_it_to_light(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["found", "rot", "6 h", "--step", "pipes run"]
    found = document(capsys, *words, "--job", str(job), *TODAY, *AT)
    assert [call["who"] for call in found["calls"]][0] == "client"
    assert "found bath/pipes/run, rot, 6 h" in (job / BOOK_FILE).read_text("utf-8")


def test_a_failed_inspection_is_done_again(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for number, words in enumerate((["done", "pipes run"], ["done", "pipes hide"], ["done", "pipes light"])):
        assert main([*words, "--job", str(job), "--today", "2026-03-03", "--at", f"0{number}:10"]) in (0, 3)
    capsys.readouterr()
    found = document(capsys, "failed", "pipes look", "--job", str(job), "--today", "2026-03-03", "--at", "05:10")
    new = {one["id"] for one in found["moved"] if one["was"] is None}
    assert new == {"bath/pipes again/run", "bath/pipes again/look"}


def test_what_people_were_told_is_replaced_only_if_somebody_says_so(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sequencer.cli.commands.accept.somebody_there", lambda: False)
    assert told(capsys, "accept", str(job), *TODAY)[0] == 0
    kept = (job / "told" / "tiny" / "plan.json").read_bytes()
    code, out, err = told(capsys, "late", "plumber", "--until", "4 March", "--job", str(job), *TODAY, *AT)
    assert code == 4
    assert "1. plumber, today: to settle the new day" in out
    assert "--yes or accept makes this the plan they were told" in err
    assert (job / "told" / "tiny" / "plan.json").read_bytes() == kept
    code, out, err = told(capsys, "late", "plumber", "--until", "5 March", "--job", str(job), *TODAY, *AT, "--yes")
    assert code == 0
    assert "this is the plan people were told now" in err
    assert (job / "told" / "tiny" / "plan.json").read_bytes() != kept


def test_every_fact_says_whom_to_call_where_people_were_told_a_plan(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The pipes are done a day late: the electrician, told Monday afternoon, has to hear of it."""
    assert told(capsys, "accept", str(job), *TODAY)[0] == 0
    words = ["began", "pipes run", "--job", str(job), "--today", "2026-03-03", "--at", "08:00"]
    code, out, _ = told(capsys, *words)
    assert code == 0
    assert "WHOM TO CALL, IN THIS ORDER" in out
    assert "1. electrician, today: a visit moves" in out


def test_a_dry_run_writes_no_fact_and_replaces_nothing(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = told(capsys, "away", "plumber", "2 March to 4 March", "--job", str(job), *TODAY, *AT, "-n")
    assert code == 0
    assert "would write: 1. " in err
    assert not (job / BOOK_FILE).exists()


@pytest.fixture
def two_jobs(tmp_path: Path, job: Path) -> Path:
    """The same job twice, next door to each other, under one people.yaml; gives the first one's folder."""
    street = tmp_path / "street"
    street.mkdir()
    (street / "people.yaml").write_text(f"format: 1\n{PEOPLE}  you: {{days: Mon to Fri}}\n", encoding="utf-8")
    for name in ("east", "west"):
        copied = street / name
        copytree(job, copied, ignore=ignore_patterns("street"))
        text = (copied / "job.yaml").read_text("utf-8").replace("job: tiny", f"job: {name}")
        (copied / "job.yaml").write_text(text.replace(PEOPLE, ""), encoding="utf-8")
    return street / "east"


def test_a_change_in_one_job_shows_what_it_does_to_the_others(
    two_jobs: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    found = document(capsys, "if", "late", "plumber", "--until", "4 March", "--job", str(two_jobs), *TODAY)
    assert [one["job"] for one in found["beside"]] == ["west"]
    assert found["beside"][0]["finish"] > "2026-03-03"
    assert found["elsewhere"] and {one["job"] for one in found["elsewhere"]} == {"west"}


def test_who_is_at_another_job_has_no_waiting_hour_here(two_jobs: Path, capsys: pytest.CaptureFixture[str]) -> None:
    west = document(capsys, "plan", str(two_jobs.parent / "west"), *TODAY)
    mine = [span for step in west["steps"] if step["trade"] == "you" for span in step["pieces"]]
    days = ("2026-03-02", "2026-03-03", "2026-03-04")
    free = [hour for day in days for hour in document(capsys, "today", str(two_jobs), "--today", day)["waiting_hours"]]
    assert free and mine
    assert not any(start < hour["until"] and hour["from"] < end for hour in free for start, end in mine)


def test_days_late_count_from_the_next_visit_still_to_come(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    late = ("late", "plumber", "--days", "2", "--job", str(job), "--today", "2026-03-20", "--at", "Fri 00:10")
    code, _, err = told(capsys, *late)
    assert (code, "no visit of plumber is to come" in err) == (2, True)
