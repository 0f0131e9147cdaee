"""What a check of recipes remarks on, each in a recipe of its own."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from sequencer.answers.remarks import remarks
from sequencer.cli import main
from sequencer.files import read_recipe_library

HEAD = """format: 1
recipe: mine
title: Mine
works on: [floor]
sources: {c: "common practice, no source", s: a standard}
"""

CASES = {
    "a dangerous step without a caution": (
        "steps: {lay: {do: Cables laid, hours: 1 h (c)}}",
        ['"lay" means electricity ("Cable"), and no caution speaks of it'],
    ),
    "the same step with its caution": (
        "cautions: A licensed electrician does this\nsteps: {lay: {do: Cables laid, hours: 1 h (c)}}",
        [],
    ),
    "a wait of experience without a range": (
        'steps: {lay: {hours: 1 h (c), ready for: {next: "after 3 h, fixed (c)"}}, cover: {hours: 1 h (c)}}',
        ['the wait of "lay" for "next" has no range, and no standard prescribes it'],
    ),
    "a wait that a standard prescribes": (
        'steps: {lay: {hours: 1 h (c), ready for: {next: "after 3 h, fixed (s)"}}, cover: {hours: 1 h (c)}}',
        [],
    ),
    "a window that lies in the night": (
        'steps: {lay: {hours: 1 h (c), ready for: {next: "after 9 h, within 12 h, fixed (s)"}}, top: {hours: 1 h (c)}}',
        ['"top" finds no usual working hour in time after "lay" (Mon to Fri, 08:00-16:00)'],
    ),
    "a window that reaches the next morning": (
        'steps: {lay: {hours: 1 h (c), ready for: {next: "after 9 h, within 16 h, fixed (s)"}}, top: {hours: 1 h (c)}}',
        [],
    ),
    "a state nobody gives": (
        "needs: [moon full]\nsteps: {lay: {hours: 1 h (c)}}",
        ['no recipe gives "moon full"'],
    ),
    "two words for one state": (
        "gives: [floor tiled]\nsteps: {lay: {hours: 1 h (c)}, seal: {hours: 1 h (c), needs: [floors tiled]}}",
        ['"floors tiled" and "floor tiled" look like two words for one state'],
    ),
    "a word that looks like a brand": (
        "steps: {lay: {do: Laid in Wundermix mortar, hours: 1 h (c)}}",
        ['"Wundermix" looks like a brand'],
    ),
    "capitals of the trade": (
        "steps: {lay: {do: Laid on Monday in PVC, hours: 1 h (c)}}",
        [],
    ),
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case)
def test_a_recipe_is_remarked_on_for(case: str, tmp_path: Path) -> None:
    steps, told = CASES[case]
    (tmp_path / "recipes").mkdir()
    (tmp_path / "recipes" / "mine.yaml").write_text(f"{HEAD}{steps}\n", encoding="utf-8")
    library = read_recipe_library(tmp_path)
    assert [remark.what for remark in remarks([library["mine"]], library.values())] == told


def test_the_shipped_recipes_leave_nothing_to_better(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    code = main(["recipes", "check", "--job", str(tmp_path)])
    assert capsys.readouterr().out.endswith(" recipes: nothing to better.\n")
    assert code == 0


def test_a_copied_recipe_stands_beside_the_job_and_is_never_written_over(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    copy = ["recipes", "copy", "grout", "--job", str(tmp_path)]
    assert main(copy) == 0
    own = tmp_path / "recipes" / "grout.yaml"
    assert "recipe: grout" in own.read_text(encoding="utf-8")
    own.write_text(own.read_text(encoding="utf-8") + "# mine\n", encoding="utf-8")
    assert main(copy) == 2
    assert own.read_text(encoding="utf-8").endswith("# mine\n")
    assert "is there already" in capsys.readouterr().err


def test_somebody_nothing_needs_whose_name_is_nearly_a_needed_one_is_remarked_on(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    demo = Path(__file__).parent.parent / "docs" / "demo-3"
    shutil.copytree(demo, tmp_path / "job")
    text = (demo / "job.yaml").read_text(encoding="utf-8")
    people = "people:\n  plumbr: {hours: 09:00-15:00}\n  roofer: {hours: 09:00-15:00}\n"
    (tmp_path / "job" / "job.yaml").write_text(text + people, encoding="utf-8")
    line = text.count("\n") + 2
    assert main(["check", str(tmp_path / "job"), "--today", "2027-10-04"]) == 0
    remarks_told = [line for line in capsys.readouterr().out.splitlines() if line.startswith("could be better")]
    assert remarks_told == [f"could be better: job.yaml:{line}:3: no step is done by plumbr; is plumber meant?"]
