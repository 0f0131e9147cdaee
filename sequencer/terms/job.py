"""A job as its files say it, every name met and every place kept: what air, waits, network and audit start from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from sequencer.terms.air import AirSaid, AirSwitch
from sequencer.terms.arranged import Booking, Choice, Decision, Order
from sequencer.terms.fact import Fact
from sequencer.terms.goal import PREFERENCES
from sequencer.terms.house import House
from sequencer.terms.minute import Minute, Span
from sequencer.terms.past import Asked, Past
from sequencer.terms.place import Place
from sequencer.terms.recipe import Closing, Given, Hours, Kind, Length, Named, Recipe, Stand, Toilet
from sequencer.terms.told import Told
from sequencer.terms.wait import Limit, Wait


@dataclass(frozen=True)
class Workday:
    """One calendar day of a trade, in UTC minutes: open spans in order, none of them empty."""

    spans: tuple[Span, ...]


@dataclass(frozen=True)
class Trade:
    """Who does steps. `days`: every working day of the horizon, set-up and clean-up already taken off.

    `hands`: people of this trade there at once. `notice_days` [working days] before a visit not yet asked for;
    `earliest`: the moment that notice allows, None if none is needed. `cushion` [min] of the trade's own working time
    that a visit is kept behind the work in front of it. `shortest_visit` [min]. `travel` [min] between places.
    `hour_known` False: comes at some hour of its window; all is ready when the window opens, passed when it closes.
    `ask_by`: for each working day, the last moment to ask for it (parallel to `days`), empty if none.
    """

    name: str
    days: tuple[Workday, ...]
    place: Place
    hands: int = 1
    earliest: Minute | None = None
    notice_days: int = 0
    notice_words: str = ""
    cushion: int = 0
    shortest_visit: int = 0
    travel: int = 0
    hour_known: bool = True
    ask_by: tuple[Minute, ...] = ()


@dataclass(frozen=True)
class Surface:
    """A surface of a room or a part of one: "wet walls", or "wet walls" part "first wall"."""

    name: str
    part: str | None = None

    def touches(self, other: Surface) -> bool:
        """True if both lie on the same material: the same surface, unless they are two different parts of it."""
        return self.name == other.name and (self.part is None or other.part is None or self.part == other.part)

    def __str__(self) -> str:
        return self.name if self.part is None else f"{self.name}, {self.part}"


@dataclass(frozen=True)
class Link:
    """This step starts only after step `id`: after its end of work, or when it is ready for `purpose`.

    `why` is "recipe" (the step above, or the recipe's own `after`) or "my order" (the job's after/before).
    """

    id: str
    purpose: str | None
    why: str
    place: Place


@dataclass(frozen=True)
class Step:
    """One step of this job in one room, with everything resolved but the states.

    `minutes` [min] hands-on; `surfaces` of its own room; empty for a step that is about no surface. `water` [kg] its
    layer gives off until it is ready for `dries_for`.
    """

    id: str
    title: str
    room: str
    use: str
    recipe: str
    name: str
    kind: Kind
    trade: str
    minutes: int
    hours: Hours
    surfaces: tuple[Surface, ...]
    place: Place
    one_go: bool = False
    wet_film: bool = False
    makes: tuple[str, ...] = ()
    stands: Stand = "floor"
    hands: int = 1
    where: str | None = None
    open_framing: bool = False
    links: tuple[Link, ...] = ()
    needs: tuple[Named, ...] = ()
    follows: tuple[Named, ...] = ()
    gives: tuple[Given, ...] = ()
    takes_back: tuple[Named, ...] = ()
    air: tuple[Limit, ...] = ()
    waits: tuple[Wait, ...] = ()
    water: float = 0.0
    dries_for: str | None = None
    closing: Closing | None = None
    services_off: tuple[str, ...] = ()
    noisy: bool = False
    lift: bool = False
    look_in: Length | None = None
    fumes: Length | None = None
    toilet: Toilet | None = None
    hold: str | None = None
    if_failed: tuple[str, ...] = ()
    if_too_late: str | None = None
    record: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    def wait_for(self, purpose: str) -> Wait | None:
        """The wait keyed by a purpose, or None."""
        return next((wait for wait in self.waits if wait.purpose == purpose), None)


@dataclass(frozen=True)
class Room:
    """A room: its surfaces with areas [m2], steps at once, states it already has, the room it is reached through.

    `volume` [m3], None if unknown; `air_changes` [1/h] with air as it is said to be, fans counted in; `dryer` [kg/h] of
    water that is taken out of its air.
    """

    name: str
    title: str
    place: Place
    areas: dict[str, float]
    volume: float | None = None
    air_changes: float = 0.0
    dryer: float = 0.0
    at_once: int = 1
    already: tuple[Named, ...] = ()
    reached_through: str | None = None
    air: AirSaid = field(default_factory=AirSaid)


@dataclass(frozen=True)
class Job:
    """Everything the files say, checked. `start`: first minute of the start day; `horizon`: end of all calendars.

    `half_days`: every local midnight and noon from the start day on [UTC minutes]; a half-day lies between two of them.
    `working_days`: from midnight to midnight, every working day of the place (weekdays that are no holidays).
    `closed_days`: local midnights of holidays and closed days, with their name.
    `hand_over_needs`: purposes every layer must be ready for at hand-over. `today`: the midnight the files are read on,
    also after the start; None: as `now`. `choices`: recipes that can be done in more than one way. `beside`: the other
    jobs that share people with this one; `shared`: the names of these people.

    `facts`: the standing facts of the site book; `as_written`: the job without them, None where there are none.
    `asked`: by step. `past`: what has happened, by step; None: not worked out yet. `followed_late`: what lies behind
    may be followed later than its layers allow, since nothing fits otherwise. `cushion_used`: steps whose firm visit
    stands though work in front of it ends within its cushion. `visits_stand`: no firm visit may be given up.

    `told`: the plan people were told, None if none was. `prefer`: what decides, in this order, among plans that hand
    over in the same half-day.
    """

    name: str
    title: str
    place: Place
    zone: str
    start: Minute
    now: Minute
    horizon: Minute
    promise: Minute | None
    half_days: tuple[Minute, ...]
    working_days: tuple[Span, ...]
    closed_days: dict[Minute, str]
    rooms: tuple[Room, ...]
    trades: dict[str, Trade]
    steps: tuple[Step, ...]
    recipes: dict[str, Recipe]
    hand_over_needs: tuple[str, ...] = ()
    hand_over_trade: str = "you"
    orders: tuple[Order, ...] = ()
    bookings: tuple[Booking, ...] = ()
    house: House = field(default_factory=House)
    words: str = "US"
    assumed: tuple[str, ...] = ()
    today: Minute | None = None
    facts: tuple[Fact, ...] = ()
    asked: dict[str, Asked] = field(default_factory=dict)
    past: dict[str, Past] | None = None
    followed_late: bool = False
    cushion_used: frozenset[str] = frozenset()
    visits_stand: bool = False
    as_written: Job | None = None
    choices: tuple[Choice, ...] = ()
    decisions: tuple[Decision, ...] = ()
    beside: tuple[Job, ...] = ()
    shared: frozenset[str] = frozenset()
    told: Told | None = None
    prefer: tuple[str, ...] = PREFERENCES

    def step(self, id: str) -> Step:
        """The step of this id. KeyError if there is none."""
        return self._by_id[id]

    def room(self, name: str) -> Room:
        """The room of this name. KeyError if there is none."""
        return self._rooms[name]

    def steps_in(self, room: str) -> list[Step]:
        """The steps of a room in the order of the files; none for a room the job does not have."""
        return self._by_room.get(room, [])

    def steps_giving(self, room: str, state: str) -> list[Step]:
        """The steps of a room that give a state, in the order of the files."""
        return self._giving.get((room, state), [])

    def steps_taking_back(self, room: str, state: str) -> list[Step]:
        """The steps of a room that take a state back, in the order of the files."""
        return self._taking_back.get((room, state), [])

    def with_bookings(self, bookings: tuple[Booking, ...]) -> Job:
        """The same job with these firm visits instead of its own."""
        return replace(self, bookings=bookings)

    def with_air_from(self, begins: Mapping[str, Minute], done_by: bool = False) -> Job:
        """The same job, its air taken to change at these moments where it changes with a step; `begins` by step.

        `done_by`: a plan has to be done with these steps by then.
        """
        rooms = (replace(room, air=room.air.with_switches(begins, done_by)) for room in self.rooms)
        return replace(self, rooms=tuple(rooms)) if self.switches else self

    @cached_property
    def told_starts(self) -> dict[str, Minute]:
        """The start every other trade was told for its steps, where it can still move; firm visits as booked."""
        if self.told is None:
            return {}
        firm = {booking.step: booking.at for booking in self.bookings}
        starts, past, trades = self.told.starts, self.past or {}, {step.id: step.trade for step in self.steps}
        return {
            id: firm.get(id, starts[id])
            for visit in self.told.visits
            for id in visit.steps
            if id not in past and trades.get(id) == visit.trade != self.hand_over_trade
        }

    @cached_property
    def switches(self) -> tuple[AirSwitch, ...]:
        """All air of the job that begins with a step."""
        return tuple(dict.fromkeys(switch for room in self.rooms for switch in room.air.switches))

    @cached_property
    def _by_id(self) -> dict[str, Step]:
        return {step.id: step for step in self.steps}

    @cached_property
    def _by_room(self) -> dict[str, list[Step]]:
        rooms: dict[str, list[Step]] = {room.name: [] for room in self.rooms}
        for step in self.steps:
            rooms[step.room].append(step)
        return rooms

    @cached_property
    def _giving(self) -> dict[tuple[str, str], list[Step]]:
        found: dict[tuple[str, str], list[Step]] = {}
        for step in self.steps:
            for state in dict.fromkeys(given.state for given in step.gives):
                found.setdefault((step.room, state), []).append(step)
        return found

    @cached_property
    def _taking_back(self) -> dict[tuple[str, str], list[Step]]:
        found: dict[tuple[str, str], list[Step]] = {}
        for step in self.steps:
            for state in dict.fromkeys(back.word for back in step.takes_back):
                found.setdefault((step.room, state), []).append(step)
        return found

    @cached_property
    def _rooms(self) -> dict[str, Room]:
        return {room.name: room for room in self.rooms}
