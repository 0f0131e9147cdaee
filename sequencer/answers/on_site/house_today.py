"""What the house notices of a day: services that are off, and layers somebody has to look in on."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.plan import Plan
from sequencer.terms.hearing import same_use
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, Span


@dataclass(frozen=True)
class Off:
    """A service that is off while a step is done."""

    service: str
    room: str
    step: str
    spans: tuple[Span, ...]


@dataclass(frozen=True)
class LookIn:
    """What a step leaves behind is never left alone for longer than `every` [min], from `start` until `end`."""

    step: str
    every: int
    start: Minute
    end: Minute


@dataclass(frozen=True)
class Notice:
    """What the people in the house are told of a day: services off, and by room what to take care of."""

    off: tuple[Off, ...]
    cautions: dict[str, tuple[str, ...]]


def notice(job: Job, plan: Plan, today: Span) -> Notice:
    """The notice of a day: cautions are those of the steps worked on and of the layers that are closed."""
    cautions: dict[str, dict[str, None]] = {}
    holding = {one.step for one in plan.closed if one.start < today[1] and one.end > today[0]}
    for step in plan.steps:
        if step.id in holding or any(start < today[1] and end > today[0] for start, end in step.pieces):
            recipe = job.recipes.get(step.recipe)
            texts = (*(recipe.cautions if recipe else ()), *step.cautions)
            cautions.setdefault(step.room, {}).update(dict.fromkeys(texts))
    return Notice(services_off(job, plan, today), {room: tuple(texts) for room, texts in cautions.items()})


def services_off(job: Job, plan: Plan, today: Span) -> tuple[Off, ...]:
    """The services off on a day, by their hour."""
    found = []
    for step in plan.steps:
        spans = tuple(span for span in step.pieces if span[0] < today[1] and span[1] > today[0])
        if spans:
            found += [Off(service, step.room, step.id, spans) for service in job.step(step.id).services_off]
    return tuple(sorted(found, key=lambda one: (one.spans[0], one.service)))


def look_ins(job: Job, plan: Plan, today: Span) -> tuple[LookIn, ...]:
    """What has to be looked in on that day: from the end of a step until its recipe goes on."""
    found = []
    for step in job.steps:
        if step.look_in is None:
            continue
        start = plan.step(step.id).end
        following = [
            one.start
            for one in plan.steps
            if same_use(job.step(one.id), step) and any(after.id == step.id for after in one.after)
        ]
        end = min(following, default=start)
        if start < today[1] and end > today[0]:
            found.append(LookIn(step.id, step.look_in.minutes, start, end))
    return tuple(sorted(found, key=lambda one: (one.start, one.step)))
