"""Keeps the plan people were told beside the job. Its one plan file names every recipe text it needs, and is put in
place last and whole: whoever is killed meanwhile leaves the old plan or the new one."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from sequencer.desk.lock import let_go, locked
from sequencer.desk.write import HALF, write_whole
from sequencer.files.told import FORMAT, PLAN_FILE, TEXT_FILE, Kept, read_told, told_folder
from sequencer.plan import Plan
from sequencer.terms.minute import Minute, utc

LOCK_FILE = ".lock"


class ToldMeanwhile(Exception):
    """Another plan was accepted since this one was made."""


def accept(folder: Path, plan: Plan, kept: Kept | None, texts: Mapping[str, str]) -> bool:
    """Makes a plan the one people were told. False if they were told just that.

    `kept`: what they were told when the plan was made. `texts`: by name, the recipes it was made from. Raises
    ToldMeanwhile, nothing written; OSError if it cannot be written, the old plan standing; Faulty.
    """
    home = told_folder(folder, plan.job)
    home.mkdir(parents=True, exist_ok=True)
    with _alone(home / LOCK_FILE):
        there = read_told(folder, plan.job)
        if _number(there) != _number(kept):
            raise ToldMeanwhile
        number = _number(there) + 1
        files = {name: _file(name, text, there, number) for name, text in texts.items()}
        told = _told(plan, there, files)
        fresh = there is None or told != _standing(home)
        if fresh:
            for name, file in files.items():
                write_whole(home / file, texts[name].encode())
            told = {"format": FORMAT, "job": plan.job, "number": number, **told}
            write_whole(home / PLAN_FILE, f"{json.dumps(told, indent=1, ensure_ascii=False)}\n".encode())
        _tidy(home, set(files.values()))
    return fresh


def _number(kept: Kept | None) -> int:
    return kept.told.number if kept is not None else 0


def _file(name: str, text: str, there: Kept | None, number: int) -> str:
    """The file a recipe's text lies in already, else a new one by the number of the plan."""
    if there is not None and there.texts.get(name) == text:
        return there.files[name]
    return f"{name}.{number}.yaml"


def _told(plan: Plan, there: Kept | None, files: Mapping[str, str]) -> dict[str, object]:
    last = dict(there.told.last_visit) if there is not None else {}
    for visit in plan.visits:
        number = visit.id.rpartition(" ")[2]
        last[visit.trade] = max(last.get(visit.trade, 0), int(number))
    return {
        "hand_over": _time(plan.finish),
        "steps": {step.id: [[_time(a), _time(b)] for a, b in step.pieces] for step in plan.steps},
        "visits": [{"id": visit.id, "trade": visit.trade, "steps": list(visit.steps)} for visit in plan.visits],
        "orders": {
            one.id: {"needed": _time(one.needed), "order_by": None if one.order_by is None else _time(one.order_by)}
            for one in plan.orders
        },
        "last_visit": dict(sorted(last.items())),
        "recipes": dict(files),
    }


def _standing(home: Path) -> dict[str, object]:
    """What people were told, as it lies there."""
    read: dict[str, object] = json.loads((home / PLAN_FILE).read_text("utf-8"))
    return {key: value for key, value in read.items() if key not in ("format", "job", "number")}


def _time(minute: Minute) -> str:
    return f"{utc(minute):%Y-%m-%dT%H:%MZ}"


def _tidy(home: Path, needed: set[str]) -> None:
    """Takes away texts that no plan needs any more, and what somebody killed had only begun to write."""
    for path in home.iterdir():
        begun = path.name.startswith(".") and path.name.endswith(HALF)
        if begun or (TEXT_FILE.fullmatch(path.name) and path.name not in needed):
            path.unlink(missing_ok=True)


@contextmanager
def _alone(path: Path) -> Iterator[None]:
    """Nobody else accepts a plan of this job meanwhile."""
    handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        locked(handle)
        yield
        let_go(handle)
    finally:
        os.close(handle)
