"""Jobs that share people: sub-folders with a job.yaml each, under one folder with the people.yaml they all read."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from posixpath import normpath

from sequencer.files.job import read_job as read_alone
from sequencer.files.text import read_text
from sequencer.files.tree import Table
from sequencer.files.written import JOB_FILE, PEOPLE_FILE
from sequencer.files.yaml_tree import read_tree
from sequencer.terms.job import Job
from sequencer.terms.place import Fault, Faulty, Place
from sequencer.terms.words import OWN_TRADE


def job_folders(folder: Path) -> tuple[Path, ...]:
    """The jobs of a folder of jobs, by name: sub-folders with a job.yaml and no people.yaml of their own.

    None where the folder is a job itself, or has no people.yaml for them to share.
    """
    if not folder.is_dir() or (folder / JOB_FILE).exists() or not (folder / PEOPLE_FILE).exists():
        return ()
    with_job = (one for one in folder.iterdir() if (one / JOB_FILE).is_file())
    return tuple(sorted(one for one in with_job if not (one / PEOPLE_FILE).exists()))


def folders_beside(path: Path) -> tuple[Path, ...]:
    """The other jobs that share people with the job of a folder, or of its job.yaml; by name."""
    folder = (path.parent if path.name == JOB_FILE else path).resolve()
    jobs = job_folders(folder.parent)
    return tuple(one for one in jobs if one != folder) if folder in jobs else ()


def read_job(path: Path, today: date | None = None, new_recipes: bool = False) -> Job:
    """The job of a folder, or of a job file, with the jobs beside it that share people. Faulty with every fault.

    `new_recipes`: with recipe texts as they stand, not as they were when people were told a plan.
    """
    others = folders_beside(path)
    if jobs := job_folders(path):
        what = f'"{path}" holds several jobs, and this is asked of one'
        raise Faulty([Fault(Place(JOB_FILE), what, f"name one of them: {', '.join(job.name for job in jobs)}")])
    if not others:
        return read_alone(path, today, new_recipes=new_recipes)
    here = path.parent if path.name == JOB_FILE else path
    job, *beside = _read({here: "", **{other: f"../{other.name}/" for other in others}}, today, new_recipes)
    return replace(job, beside=tuple(beside))


def read_jobs(folder: Path, today: date | None = None) -> tuple[Job, ...]:
    """The jobs of a folder of jobs, by the names of their folders. Faulty with every fault of every job."""
    return tuple(_read({job: f"{job.name}/" for job in job_folders(folder)}, today))


def _read(folders: dict[Path, str], today: date | None, new_recipes: bool = False) -> list[Job]:
    """Jobs that share people. `folders`: each with what stands before its files' names in a fault."""
    faults: list[Fault] = []
    more = False
    jobs: dict[str, Job] = {}
    for folder, label in folders.items():
        try:
            job = read_alone(folder, today, new_recipes=new_recipes)
        except Faulty as faulty:
            faults.extend(_labelled(fault, label) for fault in faulty.faults)
            more |= faulty.more
            continue
        if job.name in jobs:
            what = f'"{job.name}" is the name of another job of this folder'
            faults.append(_labelled(Fault(job.place, what, "give each job a name of its own"), label))
        jobs[job.name] = job
    if faults:
        raise Faulty(faults, more)
    shared = _shared(next(iter(folders)) / f"../{PEOPLE_FILE}")
    return [replace(job, shared=shared) for job in jobs.values()]


def _labelled(fault: Fault, label: str) -> Fault:
    return replace(fault, place=replace(fault.place, file=normpath(label + fault.place.file)))


def _shared(path: Path) -> frozenset[str]:
    """Who stands in the people.yaml above the jobs, and whoever keeps the files: they are the same in all of them."""
    table = read_tree(read_text(path, PEOPLE_FILE), PEOPLE_FILE, [])
    people = table.get("people") if table is not None else None
    return frozenset({OWN_TRADE, *(map(str, people) if isinstance(people, Table) else ())})
