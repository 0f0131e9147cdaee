"""What an inspector or a warranty asks for, out of the site book: tests, readings, lots, each with the air it had."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from sequencer.air.hourly import HourAir, RoomAir
from sequencer.air.layers import HOW
from sequencer.air.rooms import airs
from sequencer.answers.missing import missing
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import HOUR, Minute

LOT: Final = re.compile(r"\b(?:lots?|batch(?:es)?)\b", re.IGNORECASE)
"""A note with one of these words is about what was used."""


@dataclass(frozen=True)
class Told:
    """A fact, the step it is about (None: none), and the air of its room then (None: it is about no room)."""

    fact: Fact
    step: Step | None
    air: HourAir | None


@dataclass(frozen=True)
class AirRange:
    """The air of a stretch: coldest and warmest [C], driest and dampest [0..1]; `read` of its `hours` by a meter."""

    coldest: float
    warmest: float
    driest: float
    dampest: float
    read: int
    hours: int


@dataclass(frozen=True)
class WaterTest:
    """A hold that is passed while water stands: `fill` since `filled`, told or not; `read` None: not yet.

    `start`, `end`: the level facts on filling and on reading. `lower`: by how much the water fell, None if that cannot
    be said. `air`: from filling to reading.
    """

    hold: Step
    fill: Step
    filled: Minute | None
    start: Fact | None
    end: Fact | None
    verdict: Fact | None
    air: AirRange | None

    @property
    def lower(self) -> float | None:
        """By how much the level fell, in its own unit."""
        start, end = (fact.value if fact is not None else None for fact in (self.start, self.end))
        return start.figure - end.figure if start is not None and end is not None and start.unit == end.unit else None


@dataclass(frozen=True)
class Log:
    """`tests` under water; then the facts, each in one list: `verdicts` of other holds, `readings` of meters and marks,
    `layers` read to be ready, `air` of rooms, `lots`, and all `other`. `missing`: what a recipe asks to be written down
    of a step that is done, and nothing in the book answers to."""

    job: Job
    tests: tuple[WaterTest, ...]
    verdicts: tuple[Told, ...]
    readings: tuple[Told, ...]
    layers: tuple[Told, ...]
    air: tuple[Told, ...]
    lots: tuple[Told, ...]
    other: tuple[Told, ...]
    missing: tuple[tuple[Step, tuple[str, ...]], ...]


def log(job: Job) -> Log:
    """The log of a job with its facts, by the moment they happened."""
    ends = {fact.about: fact.happened for fact in job.facts if fact.kind == "done"}
    air = airs(job.with_air_from(ends))
    steps = {step.id: step for step in job.steps}
    told = sorted(
        (Told(fact, steps.get(fact.about), _air_at(fact, steps, air)) for fact in job.facts),
        key=lambda one: (one.fact.happened, one.fact.number),
    )
    tests = tuple(_tests(job, told, air))
    in_tests = {fact.number for test in tests for fact in (test.start, test.end, test.verdict) if fact is not None}
    lists: dict[str, list[Told]] = {name: [] for name in ("verdicts", "readings", "layers", "air", "lots", "other")}
    for one in told:
        if one.fact.number not in in_tests:
            lists[_list_of(one.fact)].append(one)
    parts = {name: tuple(found) for name, found in lists.items()}
    return Log(job, tests, **parts, missing=tuple(missing(job, air)))


def _air_at(fact: Fact, steps: dict[str, Step], air: dict[str, RoomAir]) -> HourAir | None:
    room = steps[fact.about].room if fact.about in steps else fact.about
    return air[room].at(fact.happened) if room in air else None


def _list_of(fact: Fact) -> str:
    if fact.kind in ("passed", "failed"):
        return "verdicts"
    if fact.value is not None:
        return "readings"
    if fact.purpose is not None:
        return "layers"
    if fact.kind == "measured":
        return "air"
    return "lots" if LOT.search(fact.words) else "other"


def _tests(job: Job, told: list[Told], air: dict[str, RoomAir]) -> Iterator[WaterTest]:
    for hold in job.steps:
        before = [job.step(link.id) for link in hold.links]
        fill = next((step for step in before if hold.kind == "hold" and "water" in step.makes), None)
        if fill is None:
            continue
        facts = [one.fact for one in told]
        done = next((fact for fact in facts if (fact.kind, fact.about) == ("done", fill.id)), None)
        verdict = next((f for f in facts if f.kind in ("passed", "failed") and f.about == hold.id), None)
        start, end = (_level(facts, step.id) for step in (fill, hold))
        if any(fact is not None for fact in (done, verdict, start, end)):
            filled = done.happened if done is not None else start.happened if start is not None else None
            read = verdict or end
            stood = _range(air[hold.room], filled, read.happened) if filled is not None and read is not None else None
            yield WaterTest(hold, fill, filled, start, end, verdict, stood)


def _level(facts: list[Fact], step: str) -> Fact | None:
    """The newest level told of a step."""
    found = [f for f in facts if f.about == step and f.value is not None and f.value.what.split()[0] == "level"]
    return found[-1] if found else None


def _range(air: RoomAir, start: Minute, end: Minute) -> AirRange:
    here = air.between(start, max(end, start + 1))
    read = (here.how_temperature == HOW.index("reading")) & (here.how_humidity == HOW.index("reading"))
    return AirRange(
        float(here.temperature.min()),
        float(here.temperature.max()),
        float(here.humidity.min()),
        float(here.humidity.max()),
        int(np.count_nonzero(read)),
        max(1, -(-(end - start) // HOUR)),
    )
