"""The plan people were told, as it lies beside the job: its times and visits, and the recipe texts it was made from."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field, ValidationError

from sequencer.files.library import Library
from sequencer.files.text import read_text
from sequencer.terms.job import Job
from sequencer.terms.minute import minute_of
from sequencer.terms.place import Fault, Faulty, Place
from sequencer.terms.told import Told, ToldOrder, ToldVisit

FOLDER = "told"
"""Beside the job: a folder of this name holds one by each job's name."""

PLAN_FILE = "plan.json"
FORMAT = 1

TEXT_FILE = re.compile(r"(?P<recipe>[A-Za-z0-9-]+)\.\d+\.yaml")
"""A recipe's text by the number of the plan that first had it."""

AGAIN = "put the file back as the program wrote it, or delete its folder: then nobody was told anything"


@dataclass(frozen=True)
class Kept:
    """The plan people were told, and the recipe texts it was made from: by recipe its file and its text."""

    told: Told
    files: Mapping[str, str] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)


class _Model(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class _Visit(_Model):
    id: str
    trade: str
    steps: Annotated[tuple[str, ...], Field(min_length=1)]


class _Order(_Model):
    needed: AwareDatetime
    order_by: AwareDatetime | None


class _Plan(_Model):
    format: int
    job: str
    number: Annotated[int, Field(ge=1)]
    hand_over: AwareDatetime
    steps: dict[str, Annotated[tuple[tuple[AwareDatetime, AwareDatetime], ...], Field(min_length=1)]]
    visits: tuple[_Visit, ...]
    orders: dict[str, _Order] = {}
    last_visit: dict[str, int]
    recipes: dict[str, str]


def told_folder(folder: Path, job: str) -> Path:
    """Where the plan of a job that people were told lies."""
    return folder / FOLDER / job


def read_told(folder: Path, job: str) -> Kept | None:
    """The plan of a job that people were told; None if no plan was accepted yet. Raises Faulty."""
    path, label = told_folder(folder, job) / PLAN_FILE, f"{FOLDER}/{job}/{PLAN_FILE}"
    if not path.is_file():
        return None
    plan = _checked(read_text(path, label), label)
    pieces = {id: tuple((minute_of(a), minute_of(b)) for a, b in spans) for id, spans in plan.steps.items()}
    visits = tuple(
        ToldVisit(visit.id, visit.trade, min(pieces[id][0][0] for id in visit.steps), visit.steps)
        for visit in plan.visits
    )
    orders = {
        id: ToldOrder(minute_of(one.needed), None if one.order_by is None else minute_of(one.order_by))
        for id, one in plan.orders.items()
    }
    told = Told(plan.number, minute_of(plan.hand_over), pieces, visits, plan.last_visit, orders=orders)
    texts = {name: read_text(path.parent / file, f"{FOLDER}/{job}/{file}") for name, file in plan.recipes.items()}
    return Kept(told, plan.recipes, texts)


def texts_of(folder: Path, job: Job, kept: Kept | None) -> dict[str, str]:
    """The texts of the recipes a job uses, by name: those that are kept, else as they stand. Raises Faulty."""
    library, texts = Library(folder), kept.texts if kept is not None else {}
    return {name: texts[name] if name in texts else library.text(name) for name in sorted(job.recipes)}


def _checked(text: str, label: str) -> _Plan:
    try:
        plan = _Plan.model_validate_json(text)
    except ValidationError as error:
        raise Faulty([_fault(text, label, error)]) from None
    wrong = next(_wrongs(plan), None)
    if wrong is not None:
        raise Faulty([Fault(Place(label), wrong, AGAIN)])
    return plan


def _wrongs(plan: _Plan) -> Iterator[str]:
    if plan.format != FORMAT:
        yield f"this program reads format {FORMAT}, not {plan.format}"
    for visit in plan.visits:
        unknown = (id for id in visit.steps if id not in plan.steps)
        yield from (f'the visit "{visit.id}" names "{id}", which is no step here' for id in unknown)
    for name, file in plan.recipes.items():
        found = TEXT_FILE.fullmatch(file)
        if found is None or found["recipe"] != name:
            yield f'"{file}" is no file of the recipe "{name}"'


def _fault(text: str, label: str, error: ValidationError) -> Fault:
    """Where the text stops to be JSON, else the first value that is not as the program writes it."""
    try:
        json.loads(text)
    except json.JSONDecodeError as broken:
        return Fault(Place(label, broken.lineno, broken.colno), "this was not written by the program", AGAIN)
    where = " ".join(map(str, error.errors()[0]["loc"]))
    return Fault(Place(label), f'"{where}" is not as the program writes it', AGAIN)
