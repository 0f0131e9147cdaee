"""What is closed, ordered, decided, under way, and still to come."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute
from sequencer.terms.recipe import Grade


@dataclass(frozen=True)
class Closed:
    """A surface closed by a layer, from the end of work: `grade` keep off or leave; `how`: sets, dries or water on."""

    room: str
    surface: str
    grade: Grade
    start: Minute
    end: Minute
    why: str
    step: str
    how: str = "sets"


@dataclass(frozen=True)
class PlannedOrder:
    """An order: when to place it (None: it is placed), arrival, first need. `state`: ordered, to order.

    `told`: the first need in the plan people were told; `told_order_by`: by when it was to be placed then. None: they
    were told nothing of it, or it was placed.
    """

    id: str
    item: str
    order_by: Minute | None
    arrives: Minute
    needed: Minute
    steps: tuple[str, ...]
    state: str
    told: Minute | None = None
    told_order_by: Minute | None = None


@dataclass(frozen=True)
class PlannedDecision:
    """Something `by` somebody decides: by when to ask (None: it is decided), when it is first needed."""

    id: str
    by: str
    ask_by: Minute | None
    needed: Minute
    steps: tuple[str, ...]
    decided: bool


@dataclass(frozen=True)
class StillToCome:
    """A wait that runs on past hand-over."""

    step: str
    purpose: str
    at: Minute


@dataclass(frozen=True)
class UnderWay:
    """A wait that runs today: `share` [0..1] of it over, expected `ready`.

    `so_far` [h] since the end of work, `read` [h] of them in air a meter read. `ready_as_said`: by what was said of the
    air alone; None where no reading changes it. `ready_as_told`: by that air from the end of work people were told;
    None where they were told none, or this very moment.
    """

    step: str
    purpose: str
    share: float
    ready: Minute
    so_far: float
    read: int
    ready_as_said: Minute | None
    ready_as_told: Minute | None = None
