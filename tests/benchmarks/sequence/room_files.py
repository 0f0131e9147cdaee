"""Job folders made of the demo's recipes: many like bathrooms with crews, or one bathroom drawn at random."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

import yaml

from sequencer.files import read_job
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR

DEMO = Path(__file__).parent.parent.parent.parent / "docs" / "demo"
TODAY = date(2027, 1, 25)
"""A week before the demo starts."""

LOAD_WEEKS, LOAD_POWER = 5.0, 0.31
"""Crews are as large as it takes to work N rooms in LOAD_WEEKS * N ** LOAD_POWER weeks: 10 weeks for 10 rooms, 17 for
50, 26 for 200. Invented, so that people and not one room decide on hand-over."""

AIRS = (
    "17 C 65 %",
    "heated to 20 C",
    "lived-in and heated",
    "14 C 08:00-16:00, 11 C otherwise, 75 %",
    "{1 February: 12 C 80 %, 1 March: 16 C 70 %, 1 April: 19 C 60 %}",
)
"""Invented airs a room may have."""

DAYS = ("Mon to Fri", "Tue and Thu", "Mon, Wed, Fri", "Mon to Thu", "Wed to Fri")
"""Invented days on which a trade may come."""


def many_rooms(folder: Path, count: int, crews: Mapping[str, int]) -> Job:
    """Writes and reads a job of so many rooms like the demo's. `crews`: hands by trade; the rest go by the load."""
    people = _people()
    likes = [f"b{number:03}" for number in range(1, count + 1)]
    one = _written(folder / "one", people, likes[:1])
    weeks = LOAD_WEEKS * count**LOAD_POWER
    for name, person in people.items():
        trade = one.trades[name]
        if trade.hour_known:
            work = count * sum(step.minutes * step.hands for step in one.steps if step.trade == name)
            there = sum(end - start for day in trade.days for start, end in day.spans)
            weekly = there / ((one.horizon - one.start) / (7 * 24 * HOUR))
            person["hands"] = str(crews.get(name, max(trade.hands, math.ceil(work / (weeks * weekly)))))
    return _written(folder / "many", people, likes)


def _people() -> dict[str, dict[str, str]]:
    """The demo's people with the hands they have there."""
    people: dict[str, dict[str, str]] = _read_yaml("people.yaml")["people"]
    for name, said in _read_yaml("job.yaml")["people"].items():
        people[name] |= {key: value for key, value in said.items() if key == "hands"}
    return people


def _read_yaml(name: str) -> dict[str, Any]:
    return dict(yaml.load((DEMO / name).read_text("utf-8"), yaml.BaseLoader))


def _dries(like: dict[str, Any]) -> list[str]:
    """What wet layers dry by, as in the demo."""
    return [f"    {key}: {like[key]}" for key in ("air changes", "fan", "dehumidifier") if key in like]


def _written(folder: Path, people: dict[str, dict[str, str]], rooms: Iterable[str]) -> Job:
    demo = _read_yaml("job.yaml")
    like = demo["rooms"]["bathroom"]
    lines = [*_head("17 C 65 %"), *_people_lines(people), "rooms:"]
    for room in rooms:
        lines += [f"  {room}:", f"    size: {like['size']}", f"    areas: {_flow(like['areas'])}"]
        lines += [*_dries(like), "    recipes:"]
        lines += [f"      {name}: {_flow(options) if options else ''}" for name, options in like["recipes"].items()]
    lines += ["orders:"]
    lines += [f"  {name}: {_flow(order)}" for name, order in demo["orders"].items() if "made after" not in order]
    lines += [_glass(room) for room in rooms]
    return _read(folder, lines)


def one_room(folder: Path, seed: int) -> Job:
    """Writes and reads one bathroom of random size, air and people; the same seed writes the same files."""
    draw = Random(seed)
    people = _people()
    for name, person in people.items():
        if name != "you":
            person["days"] = draw.choice(DAYS)
    wide, long = draw.randint(15, 30) / 10, draw.randint(20, 36) / 10
    shower, wet = draw.randint(8, 18) / 10, draw.randint(40, 120) / 10
    parts = draw.choice(("", "{parts: {long wall: 3 m2, end walls: %.1f m2}}" % (wet - 3)))
    glass = draw.random() < 0.7
    lines = [*_head(draw.choice(AIRS)), *_people_lines(people)]
    if draw.random() < 0.7:
        lines += ["house: {people live here: yes, noise: 09:00-15:00, water off: 2 h at a time}"]
    lines += ["rooms:", "  bathroom:", f"    size: {wide} m by {long} m, 2.4 m high"]
    lines += [f"    areas: {{wet walls: {wet} m2, shower floor: {shower} m2, floor: {wide * long - shower:.1f} m2}}"]
    like = _read_yaml("job.yaml")["rooms"]["bathroom"]
    lines += [*_dries(like), "    recipes:"]
    for name, options in like["recipes"].items():
        if name != "glass-screen" or glass:
            said = _flow(options) if options else ""
            lines += [f"      {name}: {parts if name == 'wall-tile' else said}"]
    lead = draw.randint(5, 20)
    lines += ["orders:", f"  wall tile: {{for: wall-tile, ordered: 20 January, lead: {lead} working days}}"]
    if glass:
        lines += [_glass("bathroom")]
    return _read(folder, lines)


def _head(air: str) -> list[str]:
    return [
        "format: 1", "job: generated", "place: {zone: America/Vancouver, holidays: CA BC}", "words: US",
        "start: Mon 1 February 2027", "hand over needs: [foot, load, water]", f"air: {air}",
    ]  # fmt: skip


def _people_lines(people: dict[str, dict[str, str]]) -> list[str]:
    return ["people:", *(f"  {name}: {_flow(person)}" for name, person in people.items())]


def _glass(room: str) -> str:
    use = f"{room} glass-screen"
    return f"  glass {room}: {{for: {use} fit, made after: {use} measure, lead: 10 working days}}"


def _flow(value: Any) -> str:
    """A value of the demo's files as one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(inner)}" for key, inner in value.items()) + "}"
    return f'"{value}"' if "," in value else str(value)


def _read(folder: Path, lines: list[str]) -> Job:
    folder.mkdir(parents=True)
    (folder / "job.yaml").write_text("\n".join(lines) + "\n", "utf-8")
    return read_job(folder, TODAY)
