"""Noticing that somebody saved one of the files a plan rests on."""

from __future__ import annotations

from pathlib import Path

PATTERNS = ("*.yaml", "*.csv", "recipes/*.yaml", "*site-book.txt", "told/*/plan.json")

Stamp = dict[Path, tuple[int, int]]
"""Files with the moment they were last written [ns] and their size [bytes]."""


def stamp(job: Path) -> Stamp:
    """The state of the files a job rests on: its folder, its recipes, and the people one folder above."""
    folder = (job if job.is_dir() else job.parent).resolve()
    files = [file for pattern in PATTERNS for file in folder.glob(pattern)]
    found: Stamp = {}
    for file in [*files, folder.parent / "people.yaml"]:
        try:
            state = file.stat()
        except OSError:
            continue
        found[file] = (state.st_mtime_ns, state.st_size)
    return found
