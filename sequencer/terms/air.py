"""What files say about a room's air, before it is laid out hour by hour."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sequencer.terms.minute import Minute
from sequencer.terms.place import Place


@dataclass(frozen=True)
class AirStatement:
    """Air said for a stretch of time. Temperature [C] and humidity [0..1] are taken separately: None says nothing.

    `how` is one of "stated", "heated", "dried", "in words", "assumed". `floor` [C]: how warm the floor is, None: as the
    air. `since`: the moment from which its line holds, None: its own start.
    """

    start: Minute
    end: Minute
    temperature: float | None
    humidity: float | None
    how: str
    place: Place
    floor: float | None = None
    since: Minute | None = None


@dataclass(frozen=True)
class AirSwitch:
    """Air that is said from the end of work of steps on, the last of them, until the next line.

    `statements`: as if it held throughout. `at`: the moment it is taken to begin, None: from the first moment on.
    `done_by`: a plan has to be done with these steps by then.
    """

    steps: tuple[str, ...]
    statements: tuple[AirStatement, ...]
    place: Place
    at: Minute | None = None
    done_by: bool = False


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

    `temperature` [C]; `humidity` [0..1] as weather services give it, over liquid water even in frost; nan: not known.
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
    switches: tuple[AirSwitch, ...] = ()

    def with_switches(self, begins: Mapping[str, Minute], done_by: bool = False) -> AirSaid:
        """The same air, each switch at the latest of its steps' moments; one without a moment stays as it is."""
        return replace(self, switches=tuple(_at(switch, begins, done_by) for switch in self.switches))


def _at(switch: AirSwitch, begins: Mapping[str, Minute], done_by: bool) -> AirSwitch:
    known = [begins[step] for step in switch.steps if step in begins]
    return replace(switch, at=max(known), done_by=done_by) if known else switch
