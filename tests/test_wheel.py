"""What is installed is whole: recipes and demo lie inside the wheel and are found from any folder."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from sequencer.files.shelf import DEMOS

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder into which the wheel was unpacked, as an installer does."""
    built, site = tmp_path_factory.mktemp("wheel"), tmp_path_factory.mktemp("site")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(built)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    return site


def run(site: Path, folder: Path, *arguments: str) -> str:
    """The output of the installed program, started in a folder that knows nothing of the repository."""
    environment = {**os.environ, "PYTHONPATH": str(site), "PYTHONSAFEPATH": "1"}
    command = [sys.executable, *arguments]
    return subprocess.run(command, cwd=folder, env=environment, check=True, capture_output=True, text=True).stdout


def test_every_recipe_is_found_from_any_folder(installed: Path, tmp_path: Path) -> None:
    listed = run(installed, tmp_path, "-m", "sequencer", "recipes", "list").splitlines()
    names = {line.split()[0] for line in listed if line[:1].strip()}
    assert names == {path.stem for path in (ROOT / "recipes").glob("*.yaml")}


def test_the_demo_is_found_and_planned_from_any_folder(installed: Path, tmp_path: Path) -> None:
    where = run(installed, tmp_path, "-c", "from sequencer.files import demo_folder; print(demo_folder())").strip()
    assert Path(where).is_relative_to(installed)
    assert "Shortest possible" in run(installed, tmp_path, "-m", "sequencer", "plan", where, "--today", "2027-01-25")


@pytest.mark.parametrize("name", DEMOS)
def test_every_demo_is_found_from_any_folder(name: str, installed: Path, tmp_path: Path) -> None:
    where = f"from sequencer.files.shelf import demo_folder; print(demo_folder({name!r}))"
    found = Path(run(installed, tmp_path, "-c", where).strip())
    assert found.is_relative_to(installed) and (found / "job.yaml").is_file()


def test_the_screen_is_installed_too(installed: Path, tmp_path: Path) -> None:
    assert run(installed, tmp_path, "-c", "import tui; print(tui.__name__)").strip() == "tui"
