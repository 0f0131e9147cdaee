"""The job's own order binds the whole of a recipe, however many chains its steps form."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest

from sequencer.files import read_job
from sequencer.terms.place import Faulty

DEMO = Path(__file__).parent.parent / "docs" / "demo"
TODAY = date(2027, 1, 25)


def changed(folder: Path, old: str, new: str) -> Path:
    """The demo with one line of its job changed."""
    shutil.copytree(DEMO, folder / "demo")
    file = folder / "demo" / "job.yaml"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
    return folder / "demo"


def test_all_of_a_recipe_is_done_before_what_it_is_put_in_front_of(tmp_path: Path) -> None:
    job = read_job(changed(tmp_path, "      grout:\n", "      grout: {before: paint}\n"), TODAY)
    links = {link.id for link in job.step("bathroom/paint/prime").links}
    assert links == {"bathroom/grout/polish walls", "bathroom/grout/polish floor"}


def test_a_recipe_put_in_front_of_what_one_of_its_chains_needs_is_a_circle(tmp_path: Path) -> None:
    with pytest.raises(Faulty) as told:
        read_job(changed(tmp_path, "      grout:\n", "      grout: {before: wall-tile}\n"), TODAY)
    assert "these steps wait for each other in a circle" in str(told.value)


def test_what_comes_after_a_recipe_waits_for_every_end_of_it(tmp_path: Path) -> None:
    job = read_job(changed(tmp_path, "      paint:\n", "      paint: {after: grout}\n"), TODAY)
    links = {link.id for link in job.step("bathroom/paint/prime").links}
    assert links == {"bathroom/grout/polish walls", "bathroom/grout/polish floor"}
