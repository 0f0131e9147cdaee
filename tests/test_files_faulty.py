"""Every fault of a file is told in our own words, at its place, with what to write instead: one file for each fault.

A file of `tests/faulty/` is a job or a recipe; a folder holds all files of a job that differ from a valid one. What is
told stands beside it as a text. `GOLDEN=write pytest ...` writes these anew, to be read again.
"""

from __future__ import annotations

import os
import re
import shutil
from datetime import date
from pathlib import Path

import pytest
import yaml

from sequencer.cli import main
from sequencer.files import library, read_job, read_recipe_library, yaml_tree
from sequencer.terms.place import Fault, Faulty

FAULTY = Path(__file__).parent / "faulty"
SHELF = FAULTY / "shelf"
TODAY = date(2026, 2, 23)
VALID = """format: 1
job: back-lane
place: {zone: America/Halifax, holidays: CA NS}
start: Mon 2 March 2026
people:
  plumber: {days: Tue and Thu}
  inspector: {hours: 09:00-15:00, hour known: no}
rooms:
  bathroom:
    size: 2.4 m by 2.1 m, 2.4 m high
    areas: {wet walls: 9 m2}
    recipes:
      pipes:
      boards: {change: {hang: {hands: 1}}}
      membrane:
      tile:
      glass:
      paint:
"""

CASES = sorted(path for path in FAULTY.iterdir() if path.suffix != ".txt" and path.name != "shelf")


@pytest.fixture(autouse=True)
def own_shelf(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only the recipes beside the faulty files, so that these texts do not hang on those that are shipped."""
    monkeypatch.setattr(library, "recipes_folder", lambda: SHELF)


def laid_out(case: Path, folder: Path) -> Path:
    """A job's folder with the fault in it, the rest valid."""
    if case.is_dir():
        if not (case / "job.yaml").exists():
            (folder / "job.yaml").write_text(VALID)
        shutil.copytree(case, folder, dirs_exist_ok=True)
        return folder
    data = case.read_bytes()
    if re.search(rb"^steps:", data, re.MULTILINE):
        (folder / "job.yaml").write_text(VALID)
        (folder / "recipes").mkdir()
        (folder / "recipes" / case.name).write_bytes(data)
    else:
        (folder / "job.yaml").write_bytes(data)
    return folder


def told(folder: Path) -> tuple[Fault, ...]:
    with pytest.raises(Faulty) as raised:
        read_job(folder, TODAY)
    return raised.value.faults


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_a_faulty_file_is_told_at_its_place_with_what_to_write(case: Path, tmp_path: Path) -> None:
    text = "".join(f"{fault}\n" for fault in told(laid_out(case, tmp_path)))
    golden = FAULTY / f"{case.stem}.txt"
    if os.environ.get("GOLDEN") == "write":
        golden.write_text(text, encoding="utf-8")
    assert text == golden.read_text(encoding="utf-8")


def test_the_job_the_faults_are_put_into_is_valid(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(VALID)
    assert len(read_job(tmp_path, TODAY).steps) == 13


def test_every_told_text_has_its_faulty_file() -> None:
    assert {path.stem for path in FAULTY.glob("*.txt")} == {case.stem for case in CASES}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_every_fault_says_what_to_write_and_nothing_of_the_library(case: Path, tmp_path: Path) -> None:
    for fault in told(laid_out(case, tmp_path)):
        assert fault.what and fault.write
        assert not re.search(r"mapping|scalar|token|pydantic|yaml\.|Error|None|expected", f"{fault.what} {fault.write}")
        assert len(str(fault)) < 400


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_the_reader_without_c_tells_the_same(case: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(yaml_tree, "LOADER", yaml.SafeLoader)
    text = "".join(f"{fault}\n" for fault in told(laid_out(case, tmp_path)))
    assert text == (FAULTY / f"{case.stem}.txt").read_text(encoding="utf-8")


def test_a_folder_without_a_job_is_told(tmp_path: Path) -> None:
    assert [str(fault) for fault in told(tmp_path)] == [
        f'job.yaml:1:1: there is no job.yaml in "{tmp_path}"; name the folder of a job, or write one'
    ]


def test_a_job_that_does_not_exist_is_told(tmp_path: Path) -> None:
    assert told(tmp_path / "nowhere")[0].what == f'there is no job.yaml in "{tmp_path / "nowhere"}"'


def test_the_library_tells_its_own_faults(tmp_path: Path) -> None:
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "x.yaml").write_text("format: 1\nrecipe: x\n")
    with pytest.raises(Faulty) as raised:
        read_recipe_library(tmp_path)
    assert {fault.place.file for fault in raised.value.faults} == {"recipes/x.yaml"}


def test_where_faults_hide_others_that_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    hidden = laid_out(FAULTY / "eight-slips-at-once.yaml", tmp_path)
    assert main(["check", str(hidden), "--today", "2026-02-23"]) == 2
    assert capsys.readouterr().out.splitlines()[-1] == "More may show once these are mended."


def test_where_all_else_was_looked_through_nothing_more_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    alone = laid_out(FAULTY / "too-few-hands.yaml", tmp_path)
    assert main(["check", str(alone), "--today", "2026-02-23"]) == 2
    assert "More may show" not in capsys.readouterr().out


def test_a_way_nobody_knows_has_no_consequences(tmp_path: Path) -> None:
    """Boards take two hands, and there is one; whether another way of them does nobody can say."""
    (tmp_path / "job.yaml").write_text(VALID.replace("boards: {change: {hang: {hands: 1}}}", "boards: {use: rapd}"))
    (fault,) = told(tmp_path)
    assert "done in one way only" in fault.what
