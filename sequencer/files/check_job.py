"""What a job must mean, once all its names have met."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from sequencer.files.check_circle import circles
from sequencer.files.check_house import house_faults
from sequencer.files.check_people import people_faults, unknown_trades, windows
from sequencer.files.check_states import state_faults
from sequencer.files.days import day_words
from sequencer.files.fields import parse_name
from sequencer.files.job_model import JobModel
from sequencer.files.library import Library
from sequencer.files.tree import Table, Text
from sequencer.files.uses import Use
from sequencer.files.wrong import Wrong
from sequencer.terms.goal import BACK_SOON
from sequencer.terms.job import Job
from sequencer.terms.place import Fault


def job_faults(
    job: Job, uses: list[Use], library: Library, model: JobModel, table: Table, unread: Collection[str]
) -> Iterator[Fault]:
    """Everything in the job that cannot be. `table`: the job file, for the places of its keys; `unread`: people of whom
    the hours are not known."""
    places = {id: use.place for use in uses for part in use.parts for id in use.ids(part.name if part else None)}
    yield from _dates(model, table)
    yield from _preferences(job, model)
    yield from _lasting_names(table)
    if not uses:
        yield Fault(table.place_of("rooms"), "no room has recipes", "add recipes: to a room, with a recipe below it")
    yield from state_faults(job, uses, library, places)
    yield from circles(job, places)
    yield from unknown_trades(job, places, unread)
    yield from people_faults(job, places)
    yield from house_faults(job, places)
    yield from windows(job, places)


def _lasting_names(table: Table) -> Iterator[Fault]:
    rooms = table["rooms"]
    assert isinstance(rooms, Table)
    for room in rooms.texts():
        yield from _lasting(room)
        node = rooms[room]
        recipes = node.get("recipes") if isinstance(node, Table) else None
        for use in recipes.texts() if isinstance(recipes, Table) else ():
            yield from _lasting(use)


def _lasting(name: Text) -> Iterator[Fault]:
    try:
        parse_name(name)
    except Wrong as wrong:
        yield from wrong.faults(name.place)


def _preferences(job: Job, model: JobModel) -> Iterator[Fault]:
    preferred = model.prefer or ()
    for number, each in enumerate(preferred):
        if each.word in (other.word for other in preferred[:number]):
            yield Fault(each.place, f'"{each.word}" stands here twice', "keep one of the two")
        if each.word == BACK_SOON and not job.house.lived_in:
            advice = "write people live here: yes under house, or leave it out"
            yield Fault(each.place, f'"{each.word}" decides only where people live', advice)


def _dates(model: JobModel, table: Table) -> Iterator[Fault]:
    if model.promise is not None and model.promise < model.start:
        what = f"the promise lies before the start ({day_words(model.start)})"
        yield Fault(table.place_of("promise"), what, "promise a later day")
