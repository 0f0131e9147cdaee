"""What the house and the people in it ask of those who work there."""

from __future__ import annotations

from dataclasses import dataclass, field

from sequencer.terms.minute import Span
from sequencer.terms.place import Place


@dataclass(frozen=True)
class Absence:
    """The only toilet is gone from the end of step `off` to the end of step `back`, over `nights` nights at most."""

    off: str
    back: str
    nights: int
    place: Place


@dataclass(frozen=True)
class House:
    """What the people in the house ask for. `noise`: spans in which noise is allowed, None: any time.

    `access`: spans in which anybody may be in the house; `lift`: spans for which it is booked; None: any time.
    `services` maps a service to the longest it may be off at a time [min]. `fumes_gone`: spans without
    fumes, one a night. `nights`: every night of the job; `absences` of the only toilet. `places`: where a key stands.
    """

    lived_in: bool = False
    noise: tuple[Span, ...] | None = None
    noise_words: str = ""
    services: dict[str, int] = field(default_factory=dict)
    place: Place | None = None
    access: tuple[Span, ...] | None = None
    access_words: str = ""
    lift: tuple[Span, ...] | None = None
    fumes_gone: tuple[Span, ...] = ()
    fumes_words: str = ""
    nights: tuple[Span, ...] = ()
    absences: tuple[Absence, ...] = ()
    places: dict[str, Place] = field(default_factory=dict)

    def place_of(self, key: str) -> Place | None:
        """Where a key of the house stands, else where the house does."""
        return self.places.get(key, self.place)
