"""From plain files to a Job: text with places, quantities, people, recipes, checks. A fault is told at its place."""

from __future__ import annotations

from sequencer.files.beside import job_folders, read_job, read_jobs
from sequencer.files.library import read_recipe_library
from sequencer.files.shelf import demo_folder

__all__ = ["demo_folder", "job_folders", "read_job", "read_jobs", "read_recipe_library"]
