"""What files say about a room's air, before it is laid out hour by hour."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place


@dataclass(frozen=True)
class AirStatement:
    """Air said for a stretch of time. Temperature [C] and humidity [0..1] are taken separately: None says nothing.

    `how` is one of "stated", "heated", "dried", "in words", "assumed".
    """

    start: Minute
    end: Minute
    temperature: float | None
    humidity: float | None
    how: str
    place: Place


@dataclass(frozen=True)
class AirReading:
    """One line of a logger: temperature [C], humidity [0..1]; None where the meter said nothing."""

    at: Minute
    temperature: float | None
    humidity: float | None
    place: Place


@dataclass(frozen=True)
class OutdoorHours:
    """Outdoor air of known hours, a forecast: from `first` on, an entry an hour.

    `temperature` [C]; `humidity` [0..1] as weather services give it, over liquid water even in frost.
    """

    first: Minute
    temperature: tuple[float, ...]
    humidity: tuple[float, ...]


@dataclass(frozen=True)
class TypicalYear:
    """Outdoor air of a typical year of 365 days, an entry an hour from 1 January 00:00 of the place's standard time.

    `offset` [min] east of UTC; `temperature` [C]; `humidity` [0..1] over liquid water.
    """

    offset: int
    temperature: tuple[float, ...]
    humidity: tuple[float, ...]


@dataclass(frozen=True)
class Outdoors:
    """Outdoor air as a source for a room: where nothing better is known it is brought indoors.

    `heated_to` [C], None: as cold as outside; `gain` [kg water / kg dry air] of people and building; `altitude` [m].
    """

    forecast: OutdoorHours | None = None
    typical: TypicalYear | None = None
    heated_to: float | None = None
    gain: float = 0.0
    altitude: float = 0.0


@dataclass(frozen=True)
class AirSaid:
    """All that is known of one room's air. Later statements win over earlier ones; readings win over statements."""

    statements: tuple[AirStatement, ...] = ()
    readings: tuple[AirReading, ...] = ()
    outdoors: Outdoors | None = None
