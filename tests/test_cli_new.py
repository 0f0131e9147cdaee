"""A new job from a few answers: it has no faults whatever is chosen, it plans at once, and nothing is written over."""

from __future__ import annotations

import io
import os
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from plans import orchard_row

from sequencer.answers.new_job.build_ups import LAYERS
from sequencer.answers.new_job.questions import ROOM, questions
from sequencer.answers.new_job.switches import savings
from sequencer.answers.new_job.wishes import RoomWish, Wishes
from sequencer.cli import ask, main
from sequencer.cli.arguments import DEMOS
from sequencer.cli.commands import new
from sequencer.files import read_recipe_library
from sequencer.plan import Plan

TODAY = ["--today", "2026-03-02", "--zone", "America/Halifax"]
CHOICES = [(layer, word) for layer, build_ups in LAYERS.items() for word in build_ups]


@pytest.fixture(autouse=True)
def somewhere(tmp_path: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(tmp_path)
    yield
    os.chdir(before)


@pytest.mark.parametrize(("layer", "word"), CHOICES)
def test_whatever_is_chosen_the_job_has_no_faults(layer: str, word: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "hall", "--yes", "-n", f"--{layer}", word, *TODAY]) == 0
    out, err = capsys.readouterr()
    assert "start: Mon 9 March 2026" in out
    assert err == ""
    assert not Path("hall").exists()


def test_it_plans_at_once_and_says_what_costs_most_days(capsys: pytest.CaptureFixture[str]) -> None:
    powder = ["--wet", "none", "--floor", "vinyl", "--lived-in", "no"]
    assert main(["new", "powder", "--yes", "--effort", "0", *powder, *TODAY]) in (0, 3)
    out = capsys.readouterr().out
    assert out.startswith("powder: hand over ")
    assert main(["check", "powder"]) == 0
    assert main(["new", "powder", "--yes", *TODAY]) == 2
    assert "powder/job.yaml is there already" in capsys.readouterr().err.replace("\\", "/")


def test_questions_are_asked_again_until_the_job_can_use_the_answer(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    answers = ["", "Tue 2 March 2026", "Mon 6 April 2026", *[""] * 40]
    monkeypatch.setattr("sys.stdin", io.StringIO("\n".join(answers) + "\n"))
    monkeypatch.setattr(new, "somebody_there", lambda: True)
    assert main(["new", "hall", "-n", *TODAY]) == 0
    out, err = capsys.readouterr()
    assert "is a Mon, not a Tue" in err
    assert "start: Mon 6 April 2026" in out
    assert "What is the wet area of the bathroom?" in err
    assert all(len(line) <= 80 for line in err.replace("] ", "]\n").splitlines())


@pytest.mark.parametrize(("said", "stands"), [("y", "yes"), ("Yes", "yes"), ("N", "no"), ("no", "no")])
def test_yes_and_no_are_understood_as_people_write_them(
    said: str, stands: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "x", "-n", "--yes", "--lived-in", said, *TODAY]) == 0
    assert f"people live here: {stands}" in capsys.readouterr().out


def test_a_terminal_that_closes_ends_the_questions(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(""))
    with pytest.raises(KeyboardInterrupt):
        ask.ask("Which", "this", "why", lambda _: [])


@pytest.mark.parametrize(
    ("flags", "said"),
    [
        (["--floor", "lino"], '--floor knows no "lino"; write one of: tile, heated, vinyl, wood'),
        (["--floor", "attic: tile"], '--floor names no room "attic"; name one with --room'),
        (["--room", "bathroom"], '--room "bathroom" has no name; write --room "NAME: ..."'),
        (["--room", "a: 2 m by 1 m, 2 m high", "--room", "A: 1 m by 1 m, 2 m high"], '--room "a" stands twice'),
        (["--lived-in", "maybe"], '"maybe" is no answer to "Do people live there meanwhile?"; write yes or no'),
        (["--person", "plumbr: days: Tue"], '--person "plumbr" does no step of this job; write one of: you, '),
        (["--start", "soon"], '"soon" is no day'),
        (["--air", "17 C 6500 %"], "6500"),
        (["--person", "plumber: days: Funday"], "Funday"),
    ],
)
def test_a_flag_nobody_can_use_is_told(flags: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "hall", "--yes", *TODAY, *flags]) == 2
    assert said in capsys.readouterr().err
    assert not Path("hall").exists()


def test_people_and_switches_stand_in_the_file(capsys: pytest.CaptureFixture[str]) -> None:
    switched = ["--helper", "--saturday", "--no-inspections", "--rapid", "--person", "plumber: days: Tue and Thu"]
    wrong = ["--room", "hall bath: 2.4 m by 1.5 m, 2.4 m high"]
    rooms = ["--room", "powder: 1.5 m by 1 m, 2.4 m high", "--wet", "powder: none"]
    assert main(["new", "x", "-n", "--yes", *switched, *TODAY, *rooms]) == 0
    out = capsys.readouterr().out
    assert "you: {days: Mon to Sat, hours: 08:00-16:30, break: 12:00-12:30, hands: 2}" in out
    assert "plumber: {days: Tue and Thu}" in out
    assert "inspector:" not in out
    assert "use: rapid" in out
    assert main(["new", "x", "-n", "--yes", *TODAY, *wrong, *rooms]) == 0
    assert "  hall-bath:\n    title: hall bath\n" in capsys.readouterr().out


@pytest.mark.parametrize("which", DEMOS)
def test_a_demo_is_written_where_it_is_asked_for(which: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "--demo", "mine", "--which", which]) == 0
    assert main(["check", "mine"]) == 0
    assert "no faults" in capsys.readouterr().out
    assert main(["new", "--demo", "mine"]) == 2
    assert "is there already" in capsys.readouterr().err


def test_savings_are_the_most_first_and_only_what_saves() -> None:
    library = read_recipe_library()
    said = {one.key: one.default for one in questions("x", date(2026, 3, 2), "UTC")}
    usual = {layer: next(iter(build_ups)) for layer, build_ups in LAYERS.items()}
    wishes = Wishes(said, (RoomWish("bathroom", ROOM.default, usual),))
    plan = orchard_row()

    def planned(other: Wishes) -> Plan:
        saved = 300 * other.helper + 600 * other.saturday - 60 * other.looks_itself
        return replace(plan, finish=plan.finish - saved)

    found = savings(wishes, plan, library, planned)
    assert [(saving.switch.name, saving.sooner) for saving in found] == [("saturday", 600), ("helper", 300)]
