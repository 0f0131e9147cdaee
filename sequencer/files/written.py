"""A job's files as written: read and shaped, nothing met yet."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sequencer.files.border import checked
from sequencer.files.days import parse_day
from sequencer.files.job_model import JobModel, PeopleModel, PersonModel
from sequencer.files.left_over import left_over
from sequencer.files.library import Library
from sequencer.files.text import read_text
from sequencer.files.tree import Table, Text, Tree
from sequencer.files.wrong import Wrong
from sequencer.files.yaml_tree import read_tree
from sequencer.terms.place import Fault, Faulty, Place

JOB_FILE = "job.yaml"
PEOPLE_FILE = "people.yaml"


ADVICE = re.compile(r'write "(.+)"')
"""Advice that is a text to be written instead."""
MENDED = 3
"""So many slips of a start day are looked through: weekday, month, and that they fit."""


@dataclass(frozen=True)
class Written:
    """The files of a job as written. Tables keep the places of keys.

    `whole`: nothing faulty was left out. `unread`: who stands in people.yaml, but nobody knows with what hours.
    """

    folder: Path
    file: str
    table: Table
    job: JobModel
    people: dict[str, PersonModel]
    people_places: dict[str, Place]
    library: Library
    whole: bool = True
    unread: frozenset[str] = frozenset()

    def keys(self, key: str) -> list[str]:
        """What is named under a key of the job file, in order, though it may not be readable."""
        node = self.table.get(key)
        return [str(text) for text in node.texts()] if isinstance(node, Table) else []

    def place(self, *keys: str) -> Place:
        """Where a key of the job file stands."""
        node: Tree = self.table
        for key in keys[:-1]:
            assert isinstance(node, Table)
            node = node[key]
        assert isinstance(node, Table)
        return node.place_of(keys[-1])


def _table(path: Path, file: str, faults: list[Fault]) -> Table | None:
    try:
        return read_tree(read_text(path, file), file, faults)
    except Faulty as faulty:
        faults.extend(faulty.faults)
        return None


def _start(table: Table) -> date | None:
    """The start day, read first, since days without a year count from it.

    Of a faulty text the day that is told to be written instead, so that the rest is still checked; None if none is.
    """
    node = table.get("start")
    text = str(node.cut(0)) if isinstance(node, Text) else ""
    for _ in range(MENDED):
        try:
            return parse_day(text)
        except Wrong as wrong:
            at, _, write = wrong.said[0]
            instead = ADVICE.fullmatch(write)
            if not at or instead is None:
                return None
            text = text.replace(at, instead[1])
    return None


def folder_of(path: Path) -> Path:
    """The folder of a job that is named by its folder or its file."""
    return path if path.is_dir() or not path.suffix else path.parent


def read_written(path: Path, faults: list[Fault], said: str | None = None) -> Written | None:
    """The files of a folder or of a job file; None after adding to `faults` why they have no shape.

    `said`: the text of the job file, where it is not written yet.

    Where some values of the job are faulty, the rest of it is given, so that all its faults are found at once.
    """
    folder = folder_of(path)
    file = JOB_FILE if folder == path else path.name
    if said is None and not (folder / file).exists():
        faults.append(Fault(Place(file), f'there is no {file} in "{folder}"', "name the folder of a job, or write one"))
        return None
    table = _table(folder / file, file, faults) if said is None else read_tree(said, file, faults)
    library = Library(folder)
    start = _start(table) if table is not None else None
    job = checked(JobModel, table, faults, start=start) if table is not None else None
    whole = job is not None
    if table is not None and job is None:
        job = left_over(JobModel, table, start)
    known = len(faults)
    people, places = _people(folder, start, faults)
    whole = whole and len(faults) == known
    if table is None or job is None:
        faults.extend(library.faults)
        return None
    return Written(folder, file, table, job, people, places, library, whole, frozenset(places) - frozenset(people))


def _people(folder: Path, start: date | None, faults: list[Fault]) -> tuple[dict[str, PersonModel], dict[str, Place]]:
    """Whose hours stand in a people.yaml, and where everybody stands who is named there."""
    for file in (PEOPLE_FILE, f"../{PEOPLE_FILE}"):
        if (folder / file).exists():
            table = _table(folder / file, file, faults)
            model = checked(PeopleModel, table, faults, start=start) if table is not None else None
            if table is not None and model is None:
                model = left_over(PeopleModel, table, start)
            people = table.get("people") if table is not None else None
            places = {str(key): key.place for key in people.texts()} if isinstance(people, Table) else {}
            return dict(model.people) if model is not None else {}, places
    return {}, {}


def people_at_hand(folder: Path) -> frozenset[str]:
    """Whose hours stand in the people.yaml beside a job or one folder above it. Raises Faulty if it cannot be read."""
    faults: list[Fault] = []
    people, _ = _people(folder, None, faults)
    if faults:
        raise Faulty(faults)
    return frozenset(people)
