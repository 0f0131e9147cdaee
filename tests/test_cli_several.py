"""Commands on a folder of jobs that share people, and on one job in it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from ics_octets import conforms
from jobs_folder import job_folder

from sequencer.cli import main

TODAY = ("--today", "2026-03-02", "--effort", "0.3")
Captured = pytest.CaptureFixture[str]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """Two jobs of a bed of mortar each, at which you alone work; both promised for the Wednesday."""
    folder = job_folder(tmp_path, "mill-lane", "orchard-row")
    for name in ("mill-lane", "orchard-row"):
        file = folder / name / "job.yaml"
        text = file.read_text("utf-8").replace("2 March 2026", "2 March 2026\npromise: Wed 4 March 2026")
        file.write_text(text, encoding="utf-8")
    return folder


def told(capsys: Captured, *words: str) -> tuple[int, str, str]:
    code = main(list(words))
    out, err = capsys.readouterr()
    return code, out, err


def test_plan_of_a_folder_tells_hand_overs_who_is_short_and_the_choice(site: Path, capsys: Captured) -> None:
    code, out, err = told(capsys, "plan", str(site), *TODAY)
    head, _, diaries = out.partition("\n\nmill-lane  ")
    assert "ALL JOBS TOGETHER" in head
    assert "WHO IS SHORT" in head
    assert "mill-lane first: mill-lane" in " ".join(head.split())
    assert "orchard-row first: orchard-row" in " ".join(head.split())
    assert "on site" in diaries
    assert max(map(len, out.splitlines())) <= 80
    assert (code == 4) == ("which promise is kept is yours to choose" in err)


def test_plans_of_a_folder_as_json_are_the_plans_of_its_jobs_with_all_together(site: Path, capsys: Captured) -> None:
    _, out, _ = told(capsys, "plan", str(site), "--json", *TODAY)
    together = json.loads(out)
    assert together["kind"] == "plans"
    assert [goal["name"] for goal in together["goals"]] == ["days late", "hand-overs"]
    assert {way["first"] for way in together["short"]["ways"]} == {"mill-lane", "orchard-row"}
    for plan in together["plans"]:
        _, alone, _ = told(capsys, "plan", str(site / plan["job"]), "--json", *TODAY)
        assert json.loads(alone) == plan
    assert [plan["beside"][0]["job"] for plan in together["plans"]] == ["orchard-row", "mill-lane"]


@pytest.mark.parametrize("name", ["mill-lane", "orchard-row"])
def test_the_job_named_first_is_planned_first(name: str, site: Path, capsys: Captured) -> None:
    code, out, _ = told(capsys, "plan", str(site), "--first", name, "--json", *TODAY)
    together = json.loads(out)
    finish = {one["job"]: one["finish"] for one in together["hand_overs"]}
    assert min(finish, key=lambda job: finish[job]) == name
    assert together["first"] == name
    assert code == 0


def test_first_names_a_job_of_a_folder(site: Path, capsys: Captured) -> None:
    code, _, err = told(capsys, "plan", str(site), "--first", "nobody", *TODAY)
    assert (code, "write one of: mill-lane, orchard-row" in err) == (2, True)
    code, _, err = told(capsys, "plan", str(site / "mill-lane"), "--first", "mill-lane", *TODAY)
    assert (code, "name the folder" in err) == (2, True)


def test_one_job_in_the_folder_tells_the_other_beside_it(site: Path, capsys: Captured) -> None:
    _, out, _ = told(capsys, "plan", str(site / "orchard-row"), *TODAY)
    assert "BESIDE IT\n mill-lane: hand over" in out


@pytest.mark.parametrize("flags", [(), ("--plain",)])
def test_rooms_of_all_jobs_stand_day_by_day(flags: tuple[str, ...], site: Path, capsys: Captured) -> None:
    _, out, _ = told(capsys, "plan", str(site), "--rooms", *flags, *TODAY)
    assert "you" in out
    assert out.count("mill-lane") > 1
    assert max(map(len, out.splitlines())) <= 80
    _, out, _ = told(capsys, "plan", str(site / "mill-lane"), "--rooms", *flags, *TODAY)
    assert out.startswith("mill-lane: hand over")


def test_check_of_a_folder_checks_every_job(site: Path, capsys: Captured) -> None:
    code, out, _ = told(capsys, "check", str(site), *TODAY[:2])
    assert (code, out.count("no faults")) == (0, 2)
    code, out, _ = told(capsys, "check", str(site), "--json", *TODAY[:2])
    assert [job["job"] for job in json.loads(out)["jobs"]] == ["mill-lane", "orchard-row"]
    file = site / "orchard-row" / "job.yaml"
    file.write_text(file.read_text("utf-8").replace("      bed:", "      bad:"), encoding="utf-8")
    code, out, _ = told(capsys, "check", str(site), *TODAY[:2])
    assert (code, out.startswith("orchard-row/job.yaml:")) == (2, True)


def test_one_calendar_holds_all_jobs_under_their_names(site: Path, tmp_path: Path) -> None:
    file = tmp_path / "all.ics"
    main(["calendar", str(site), "-o", str(file), *TODAY])
    events = conforms(file.read_bytes()).of("VEVENT")
    assert {event.value("SUMMARY").partition(":")[0] for event in events} == {"mill-lane", "orchard-row"}


def told_plans(site: Path) -> list[str]:
    return sorted(path.parent.name for path in site.glob("*/told/*/plan.json"))


def test_the_plans_of_all_jobs_of_a_folder_are_accepted_together(site: Path, capsys: Captured) -> None:
    code, out, err = told(capsys, "accept", str(site), "-n", *TODAY)
    assert (code, told_plans(site), "would make these" in err) == (0, [], True)
    code, out, err = told(capsys, "accept", str(site), *TODAY)
    assert (code, told_plans(site)) == (0, ["mill-lane", "orchard-row"])
    assert out.count("nobody was told anything so far") == 2
    assert err.count("this is the plan people were told") == 2
    _, out, err = told(capsys, "accept", str(site), "--json", *TODAY)
    assert [(job["job"], job["sentences"]) for job in json.loads(out)["jobs"]] == [
        ("mill-lane", ["nothing moves"]), ("orchard-row", ["nothing moves"]),
    ]  # fmt: skip
    assert err.count("people were told just this already") == 2
    code, _, err = told(capsys, "accept", str(site), "--new-recipes", *TODAY)
    assert (code, "name its folder" in err) == (2, True)


def test_one_job_is_accepted_with_what_that_does_to_the_others(site: Path, capsys: Captured) -> None:
    mill = str(site / "mill-lane")
    code, out, _ = told(capsys, "accept", mill, *TODAY)
    assert (code, told_plans(site)) == (0, ["mill-lane"])
    assert out.splitlines()[-1] == "orchard-row: nobody was told a plan of it"
    told(capsys, "accept", str(site / "orchard-row"), *TODAY)
    _, out, _ = told(capsys, "accept", mill, *TODAY)
    assert out.splitlines() == ["nothing moves", "orchard-row: nothing moves"]
    job = site / "mill-lane" / "job.yaml"
    longer = "      bed: {change: {frame: {hours: 12 h (mine)}}}\n"
    job.write_text(job.read_text("utf-8").replace("      bed:\n", longer), "utf-8")
    _, out, _ = told(capsys, "accept", mill, "-n", "--json", *TODAY)
    (other,) = json.loads(out)["beside"]
    assert (other["job"], other["was"], other["finish"]) == (
        "orchard-row", "2026-03-04T13:00:00+00:00", "2026-03-04T11:00:00+00:00",
    )  # fmt: skip
    assert other["moves"]
