"""The shell: what is printed where, exit codes, and no traceback for a user's faults."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from pkgutil import iter_modules
from typing import Any

import pytest
from ics_octets import conforms
from plans import orchard_row, two_rooms

import sequencer.planning
from sequencer.cli import arguments, commands, help, main
from sequencer.cli.arguments import parsed
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits
from sequencer.terms.place import Fault, Faulty, Place
from sequencer.views.diary import diary
from sequencer.views.plain import plain_diary
from sequencer.views.wide import wide_diary

ROOT = Path(__file__).parent.parent
Planner = Callable[..., Plan]


@pytest.fixture
def planned(monkeypatch: pytest.MonkeyPatch) -> list[Any]:
    """The door to a plan opens on the invented job; what it was asked is kept."""
    asked: list[Any] = []

    def door(folder: Path, today: date | None = None, effort: float = 1.0, told: Any = None) -> Plan:
        asked.append((folder, today, effort))
        return orchard_row()

    monkeypatch.setattr(sequencer.planning, "plan_for", door)
    monkeypatch.setenv("TERM", "xterm")
    return asked


def instead(monkeypatch: pytest.MonkeyPatch, door: Planner) -> None:
    monkeypatch.setattr(sequencer.planning, "plan_for", door)


@pytest.mark.parametrize(
    ("flags", "view"),
    [([], diary), (["--plain"], plain_diary), (["--wide"], wide_diary)],
    ids=["table", "plain", "wide"],
)
def test_plan_prints_the_view_asked_for(
    flags: list[str], view: Callable[[Plan], str], planned: list[Any], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", "some/job", *flags]) == 0
    out, err = capsys.readouterr()
    assert out == view(orchard_row())
    assert err == ""
    assert planned == [(Path("some/job"), None, 1.0)]


def test_a_terminal_that_cannot_draw_gets_sentences_unasked(
    planned: list[Any], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TERM", "dumb")
    assert main(["plan"]) == 0
    assert capsys.readouterr().out == plain_diary(orchard_row())


def test_without_a_command_and_without_a_terminal_the_diary_comes_in_sentences(
    planned: list[Any], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([]) == 0
    assert capsys.readouterr().out == plain_diary(orchard_row())
    assert planned == [(Path(), None, 1.0)]


def test_a_folder_alone_means_the_screen_of_that_job(tmp_path: Path) -> None:
    assert parsed([str(tmp_path)]).command == "screen"
    assert parsed([str(tmp_path)]).job == str(tmp_path)
    assert parsed(["--today", "2026-03-02"]).today == date(2026, 3, 2)


def test_json_is_json_alone(planned: list[Any], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["kind"] == "plan"


@pytest.mark.parametrize("day", ["2026-03-02", "2 March 2026", "Mon 2 March 2026"])
def test_today_is_read_as_the_files_write_days(day: str, planned: list[Any]) -> None:
    main(["plan", "--today", day, "--effort", "0.5"])
    assert planned == [(Path(), date(2026, 3, 2), 0.5)]


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (["plan", "--today", "Tue 2 March 2026"], "is a Mon, not a Tue"),
        (["plan", "--today", "soon"], '"soon" is no day'),
        (["plan", "--effort", "lots"], '"lots" is no factor'),
        (["plan", "--effort", "-1"], '"-1" is no factor'),
        (["nwe"], "there is no command nwe, nor a job of that name here; write new\n"),
        (["pln"], "there is no command pln, nor a job of that name here; write plan\n"),
        (["sauna"], "there is no command sauna, nor a job of that name here; sequencer --help lists them\n"),
        (["may"], "may what? write sequencer may grout floor"),
        (["done"], "done what? a step is done: STEP"),
        (["recipes", "copy", "grout", "d3"], "recipes has no place for d3; if it is the job's folder, write --job d3"),
        (["recipes", "copy", "grout", "d3"], "usage: sequencer recipes "),
        (["plan", "here", "there"], "plan has no place for there; quote words that belong together, or leave them out"),
        (["plan", "--jsn"], "plan has no option --jsn; write --json"),
        (["recipes", "burn"], "invalid choice: 'burn'"),
        (["plan", "--zzz"], "plan has no option --zzz; sequencer plan --help lists them"),
    ],
)
def test_a_wrong_command_ends_with_2_and_says_why(
    wrong: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(wrong)
    assert left.value.code == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err


def test_every_fault_is_told_and_the_exit_is_2(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    faults = [Fault(Place("job.yaml", 9, 2), "later", "b"), Fault(Place("job.yaml", 3, 1), "sooner", "a")]

    def door(*_: Any) -> Plan:
        raise Faulty(faults)

    instead(monkeypatch, door)
    assert main(["plan"]) == 2
    out, err = capsys.readouterr()
    assert (out, err) == ("", "job.yaml:3:1: sooner; a\njob.yaml:9:2: later; b\n")
    assert main(["plan", "--json"]) == 2
    assert [fault["line"] for fault in json.loads(capsys.readouterr().out)["faults"]] == [3, 9]


def test_no_order_that_fits_ends_with_1(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    def door(*_: Any) -> Plan:
        raise NoOrderFits(("No order of work fits all the rules.", "Grout finds no place."))

    instead(monkeypatch, door)
    assert main(["plan"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert "Grout finds no place." in err
    assert main(["plan", "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["sentences"][1] == "Grout finds no place."


def test_a_plan_that_is_not_proven_is_printed_and_ends_with_3(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    instead(monkeypatch, lambda *_: two_rooms())
    assert main(["plan"]) == 3
    out, err = capsys.readouterr()
    assert out == diary(two_rooms())
    assert "a shorter plan is not ruled out" in err


def test_an_interrupted_search_prints_the_first_plan_and_ends_with_130(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def door(folder: Path, today: date | None, effort: float, told: Any = None) -> Plan:
        if effort:
            raise KeyboardInterrupt
        return two_rooms()

    instead(monkeypatch, door)
    assert main(["plan"]) == 130
    out, err = capsys.readouterr()
    assert out == diary(two_rooms())
    assert "interrupted" in err


def test_a_file_that_cannot_be_read_or_written_is_said_without_a_traceback(
    planned: list[Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", "-o", str(tmp_path / "no" / "such" / "plan.txt")]) == 2
    assert f"{tmp_path / 'no' / 'such'}: there is no such folder; check the name" in capsys.readouterr().err


def test_output_goes_into_a_file_whole_and_a_dry_run_writes_nothing(
    planned: list[Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "plan.txt"
    assert main(["plan", "-n", "-o", str(file)]) == 0
    assert not file.exists()
    assert "would write" in capsys.readouterr().err
    assert main(["plan", "-o", str(file)]) == 0
    assert file.read_bytes().decode() == diary(orchard_row())
    assert "written" in capsys.readouterr().err
    assert main(["plan", "-o", str(file)]) == 0
    out, err = capsys.readouterr()
    assert out == ""
    assert "holds this already" in err


def test_the_calendar_is_written_with_its_own_line_ends(planned: list[Any], tmp_path: Path) -> None:
    file = tmp_path / "site.ics"
    assert main(["calendar", "-o", str(file)]) == 0
    conforms(file.read_bytes())


def test_the_calendar_on_stdout_keeps_its_octets(planned: list[Any], capfdbinary: pytest.CaptureFixture[bytes]) -> None:
    assert main(["calendar"]) == 0
    conforms(capfdbinary.readouterr().out)


def test_when_answers_for_a_word_and_names_the_nearest_for_another(
    planned: list[Any], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["when", "second", "coat", "--job", "here"]) == 0
    assert capsys.readouterr().out.startswith("Second coat [")
    assert planned[-1][0] == Path("here")
    assert main(["when", "roof"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err == 'sequencer: nothing here is called "roof"; plan names them all\n'
    assert main(["when", "secnd", "coat"]) == 2
    assert 'nothing here is called "secnd coat"; write ' in capsys.readouterr().err


def test_recipes_are_listed_and_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recipes", "list"]) == 0
    listed = capsys.readouterr().out
    assert main(["recipes"]) == 0
    assert capsys.readouterr().out == listed
    assert main(["recipes", "show", "grout"]) == 0
    assert capsys.readouterr().out.startswith("Cement grout")
    assert main(["recipes", "show", "grout", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["recipe"]["name"] == "grout"
    assert main(["recipes", "show", "gruot"]) == 2
    assert 'there is no recipe "gruot"; write "grout"' in capsys.readouterr().err
    assert main(["recipes", "show"]) == 2
    assert "show which recipe?; sequencer recipes lists them" in capsys.readouterr().err


def test_check_says_what_a_sound_job_holds_and_every_fault_of_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(ROOT / "docs" / "demo")]) == 0
    assert "no faults. 1 room, " in capsys.readouterr().out
    (tmp_path / "job.yaml").write_text("format: 1\njob: x\nclour: red\n", "utf-8")
    assert main(["check", str(tmp_path)]) == 2
    out, err = capsys.readouterr()
    assert "job.yaml:3:1: " in out
    assert err == ""
    assert main(["check", "--json", str(tmp_path)]) == 2
    assert json.loads(capsys.readouterr().out)["faults"]


def test_a_job_that_is_not_there_is_a_fault_and_no_traceback(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", str(tmp_path / "nowhere")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "Traceback" not in err
    assert "nowhere" in err or "job.yaml" in err


def shell(*arguments: str, **more: Any) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([sys.executable, "-m", "sequencer", *arguments], cwd=ROOT, capture_output=True, **more)


def test_a_reader_that_stops_early_ends_the_command_quietly() -> None:
    code = f"import sys; sys.path[:0] = {[str(ROOT), str(ROOT / 'tests')]!r}\n" + (
        "import sequencer.planning, plans\n"
        "sequencer.planning.plan_for = lambda *_: plans.orchard_row()\n"
        "from sequencer.cli import main\n"
        "sys.stdout.write('first\\n'); sys.stdout.flush(); sys.stdin.readline()\n"
        "raise SystemExit(main(['plan']))\n"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    )
    assert process.stdin and process.stdout and process.stderr
    process.stdout.readline()
    process.stdout.close()
    process.stdin.write(b"go\n")
    process.stdin.close()
    assert process.stderr.read() == b""
    assert process.wait(30) == 0


def test_output_is_utf_8_whatever_the_machine_prefers(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    source = (ROOT / "recipes" / "grout.yaml").read_text("utf-8")
    titled = source.replace("recipe: grout", "recipe: coulis").replace("title: Cement grout", "title: Coulis à joints")
    (tmp_path / "recipes" / "coulis.yaml").write_text(titled, "utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "LC_ALL": "C"}
    ran = shell("recipes", "list", "--job", str(tmp_path), env=environment)
    assert ran.returncode == 0, ran.stderr
    assert "Coulis à joints" in ran.stdout.decode("utf-8")


def test_help_names_every_command_and_exit_code() -> None:
    out = shell("--help").stdout.decode()
    for word in ("check", "plan", "when", "recipes", "calendar", "1 no order of work fits", "130 interrupted"):
        assert word in out


def test_every_command_of_the_help_is_parsed_and_done() -> None:
    assert set(help.COMMANDS) == set(arguments.PARTS)
    done_by = {commands.MODULES.get(name, name) for name in help.COMMANDS}
    assert done_by == {one.name for one in iter_modules(commands.__path__)}


def test_the_first_lines_of_a_plan_are_free_of_colour(planned: list[Any], capsys: pytest.CaptureFixture[str]) -> None:
    main(["plan"])
    assert "\x1b" not in capsys.readouterr().out


def test_a_proven_plan_ends_with_0_whatever_else_it_lacks(monkeypatch: pytest.MonkeyPatch) -> None:
    instead(monkeypatch, lambda *_: replace(two_rooms(), goals=orchard_row().goals))
    assert main(["plan"]) == 0
