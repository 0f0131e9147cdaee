"""A folder of jobs that share people, as files: one small recipe each."""

from __future__ import annotations

from pathlib import Path

from tiny_folder import BED, JOB

PEOPLE = "format: 1\npeople:\n  you: {hours: 08:00-16:00}\n  plumber: {hands: 2}\n"


def put_job(folder: Path, name: str) -> None:
    """A job in a sub-folder, under a name of its own."""
    here = folder / name
    (here / "recipes").mkdir(parents=True)
    bed = BED.format(wait="after 24 h, cement law", on="[floor]", lay="")
    (here / "recipes" / "bed.yaml").write_text(bed, encoding="utf-8")
    text = JOB.format(air=" 20 C 50 %", room="", uses="", more="").replace("job: tiny", f"job: {name}")
    (here / "job.yaml").write_text(text, encoding="utf-8")


def job_folder(folder: Path, *names: str) -> Path:
    """A folder with people and these jobs."""
    (folder / "people.yaml").write_text(PEOPLE, encoding="utf-8")
    for name in names:
        put_job(folder, name)
    return folder
