"""What files say about a room's air, before it is laid out hour by hour."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place


@dataclass(frozen=True)
class AirStatement:
    """Air said for a stretch of time. Temperature [C] and humidity [0..1] are taken separately: None says nothing.

    `how` is one of "stated", "heated", "in words", "assumed".
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
class AirSaid:
    """All that is known of one room's air. Later statements win over earlier ones; readings win over statements."""

    statements: tuple[AirStatement, ...] = ()
    readings: tuple[AirReading, ...] = ()
