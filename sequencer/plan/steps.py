"""The steps of a plan, what each is ready for, and what it waited for."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Place
from sequencer.terms.recipe import Kind


@dataclass(frozen=True)
class Ready:
    """When a step's layer is ready for a purpose.

    `hours` [h]: this wait in this air. `reference_hours` [h]: in the recipe's reference air. `latest`: the last moment
    a listener may start, None if it does not matter. `working`: how the wait comes to its length, as one sentence.
    `listeners`: ids of the steps that wait for it.
    """

    purpose: str
    at: Minute
    latest: Minute | None
    law: str
    hours: float
    reference_hours: float
    floor_hours: float | None
    source: str
    working: str
    place: Place
    listeners: tuple[str, ...] = ()


@dataclass(frozen=True)
class After:
    """A step this one follows, and the purpose it had to be ready for (None: its end of work)."""

    id: str
    purpose: str | None


@dataclass(frozen=True)
class WaitedFor:
    """Why the step does not start sooner. `kind`: material, people, hours, inspection, delivery, house, start."""

    kind: str
    id: str | None
    text: str
    where: Place | None


@dataclass(frozen=True)
class PlannedStep:
    """A step with its times. `pieces`: the spans of work, pauses over nights and days away left out.

    `if_too_late`: what has to be done again if it is not followed in time; `if_failed`: ids a failed hold repeats.
    `room_for_a_slip` [min]: how much later it may start before hand-over moves, what begins before it and the order of
    work kept. `warnings`: those of the plan that are about it. `told`: the start people were told of.
    """

    id: str
    title: str
    kind: Kind
    room: str
    recipe: str
    step: str
    trade: str
    surfaces: tuple[str, ...]
    start: Minute
    end: Minute
    pieces: tuple[Span, ...]
    work_minutes: int
    place: Place
    state: str = "planned"
    ready: tuple[Ready, ...] = ()
    after: tuple[After, ...] = ()
    waited_for: WaitedFor | None = None
    room_for_a_slip: int | None = None
    cautions: tuple[str, ...] = ()
    record: tuple[str, ...] = ()
    if_too_late: str | None = None
    if_failed: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    told: Minute | None = None
