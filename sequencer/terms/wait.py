"""A wait: the time after a step until its layer is ready for something; and the limits air sets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place

LimitKind = Literal["while working", "before", "stops", "spoils"]


@dataclass(frozen=True)
class Limit:
    """Air inside which something is allowed; outside it the limit acts.

    while working: start forbidden if any hour of the work breaks it.
    before: the same, and also `hours_before` [h] earlier.
    stops: the wait makes no progress in an hour that breaks it.
    spoils: start forbidden if the wait would meet an hour that breaks it.
    Temperatures [C], humidity [0..1], `above_dew_point` [K]: surface (air, where no other is known) minus dew point.
    `wood_driest`, `wood_dampest` [kg water / kg dry wood]: what wood would come to in this air.
    """

    kind: LimitKind
    place: Place
    coldest: float | None = None
    hottest: float | None = None
    driest: float | None = None
    dampest: float | None = None
    above_dew_point: float | None = None
    wood_driest: float | None = None
    wood_dampest: float | None = None
    hours_before: float = 0.0
    source: str = ""


@dataclass(frozen=True)
class Measured:
    """What a reading found of a layer at a moment: ready, or not ready yet. `words`: what was read, as written."""

    at: Minute
    ready: bool
    words: str
    place: Place


@dataclass(frozen=True)
class Wait:
    """How long a step's layer takes until it is ready for a purpose.

    `hours` [h] in the reference air (`at_temperature` [C], `at_humidity` [0..1]; None: the law's own reference).
    `floor_hours` [h]: never under, by the clock. `within_minutes` [min]: the latest start of every listener, counted
    from the end of hands-on work, or from ready if `within_of_ready`.
    `low`, `high`: the range, as factors on `hours`.
    `thickness` [mm]: depth of the layer where the law knows one. `strength` [0..1]: the share of the 28-day strength
    that `hours` stand for, None if they were said themselves.
    `then`: stages that follow one after the other, each a wait that begins when the one before is over; only their
    law, hours, reference, thickness and `stops` count, all else is the whole wait's.
    `measured`: the newest reading of this very layer; it ends the wait, or it is not over before it.
    """

    purpose: str
    law: str
    hours: float
    place: Place
    source: str
    at_temperature: float | None = None
    at_humidity: float | None = None
    floor_hours: float | None = None
    within_minutes: int | None = None
    within_of_ready: bool = False
    low: float = 1.0
    high: float = 1.0
    thickness: float | None = None
    strength: float | None = None
    limits: tuple[Limit, ...] = ()
    then: tuple[Wait, ...] = ()
    measured: Measured | None = None
