"""From plain files to a Job: text with places, quantities, people, recipes, checks. A fault is told at its place."""

from __future__ import annotations

from sequencer.files.job import read_job
from sequencer.files.library import read_recipe_library
from sequencer.files.shelf import demo_folder

__all__ = ["demo_folder", "read_job", "read_recipe_library"]
