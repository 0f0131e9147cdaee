"""What holds a surface and for how long: layers that close it, and layers that only the next one waits for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sequencer.plan import Closed, Plan, PlannedStep
from sequencer.terms.minute import Minute
from sequencer.terms.words import MARKS, how_of

WORST_FIRST = ("water on", "keep off", "leave", "dries")
"""Which of several things on one surface the diary shows."""


@dataclass(frozen=True)
class Held:
    """A surface held from `start` to `end` by a step's layer. `key`: its mark. `how`: sets, dries, water on.

    `working`: the wait's working as a sentence, empty if the step tells none for this end.
    """

    surface: str
    start: Minute
    end: Minute
    key: str
    how: str
    step: str
    why: str
    working: str = ""

    @property
    def asks(self) -> str:
        """What it asks of people: keep off, leave it, ..."""
        return MARKS[self.key].asks


def base(surface: str) -> str:
    """The surface of a part: "wet walls, first wall" is wet walls."""
    return surface.split(",", 1)[0]


def held_in(plan: Plan, room: str) -> tuple[Held, ...]:
    """Everything that holds a surface of a room, by start."""
    closed = [_of_closed(plan, one) for one in plan.closed if one.room == room]
    known = {(one.step, one.surface, one.end) for one in closed}
    waits = [
        wait
        for step in plan.steps
        if step.room == room
        for wait in _waits_of(step)
        if (wait.step, wait.surface, wait.end) not in known
    ]
    return tuple(sorted((*closed, *waits), key=lambda one: (one.start, one.end, one.surface, one.step)))


def worst(held: Iterable[Held]) -> Held | None:
    """The one of several the diary shows: what is closed hardest, and longest."""
    return min(held, key=lambda one: (WORST_FIRST.index(one.key), -one.end), default=None)


def _of_closed(plan: Plan, one: Closed) -> Held:
    key: str = one.grade
    if one.how == "water on" or (one.how == "dries" and one.grade == "leave"):
        key = one.how
    working = next((ready.working for ready in plan.step(one.step).ready if ready.at == one.end), "")
    return Held(one.surface, one.start, one.end, key, one.how, one.step, one.why, working)


def _waits_of(step: PlannedStep) -> Iterable[Held]:
    longest: dict[str, Held] = {}
    for ready in step.ready:
        if ready.listeners and ready.at > step.end:
            how = how_of(ready.law)
            for surface in step.surfaces:
                held = Held(surface, step.end, ready.at, "dries", how, step.id, "", ready.working)
                if surface not in longest or held.end > longest[surface].end:
                    longest[surface] = held
    return longest.values()
