"""`check`: every fault in the files."""

from __future__ import annotations

import argparse
from pathlib import Path

from sequencer.cli import DONE, WRONG
from sequencer.cli.give import give
from sequencer.terms.job import Job
from sequencer.terms.place import Fault, Faulty


def run(arguments: argparse.Namespace) -> int:
    from sequencer.files import job_folders, read_job, read_jobs
    from sequencer.views.checked import check_as_json, checked, checks_as_json, faults_as_text

    path = Path(arguments.job)
    folders = job_folders(path)
    try:
        jobs = read_jobs(path, arguments.today) if folders else (read_job(path, arguments.today),)
    except Faulty as faulty:
        told = faults_as_text(faulty.faults, faulty.more)
        give(check_as_json(None, faulty.faults) if arguments.json else told, arguments)
        return WRONG
    found = [(job, _remarks(job, folder)) for job, folder in zip(jobs, folders or (path,), strict=True)]
    if not arguments.json:
        give("".join(checked(job, remarks) for job, remarks in found), arguments)
    elif folders:
        give(checks_as_json(found), arguments)
    else:
        give(check_as_json(jobs[0], (), found[0][1]), arguments)
    return DONE


def _remarks(job: Job, path: Path) -> tuple[Fault, ...]:
    """What could be better in the job's people and its own recipes."""
    from sequencer.answers.remarks import people
    from sequencer.files import read_recipe_library
    from sequencer.files.library import is_own

    found = tuple(people.remarks(job))
    own = [recipe for recipe in job.recipes.values() if is_own(recipe)]
    if not own:
        return found
    from sequencer.answers.remarks import remarks

    return found + remarks(own, read_recipe_library(path if path.is_dir() else path.parent).values())
