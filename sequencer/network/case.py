"""What every rule looks at: the job, the air of its rooms, and the clock of every wait."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any, TypeVar, cast

from sequencer.air.hourly import RoomAir, air_on
from sequencer.network.by_clock import ByClock, OfClock, ready
from sequencer.network.ground import Ground
from sequencer.network.hours import Openings
from sequencer.network.in_room import InRoom
from sequencer.network.model import MinuteFunction
from sequencer.terms.hearing import Hearing
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import HOUR, Span
from sequencer.terms.wait import Wait
from sequencer.waits.clock import Drying, WaitClock, wait_clock
from sequencer.waits.layer import Layer, wet_room
from sequencer.waits.progress import Air
from sequencer.waits.wetting import Together, WetAir

T = TypeVar("T")


class Case:
    """A job with the air of each of its rooms.

    `drying`: when layers are taken to wet their rooms, by step; a layer's own water wets the air it dries in itself.
    """

    def __init__(self, job: Job, airs: dict[str, RoomAir], drying: Mapping[str, Span] | None = None) -> None:
        self.job = job
        self.airs = airs
        self.drying = dict(drying or {})
        self.ground = Ground(job)
        self._known: dict[Callable[..., Any], Any] = {}
        self._rooms: dict[str, InRoom] = {}

    def drying_as(self, drying: Mapping[str, Span]) -> Case:
        """The same case with layers taken to wet their rooms in these spans; what is the same in both they share."""
        other = Case(self.job, self.airs, drying)
        other.ground = self.ground
        return other

    def once(self, work: Callable[[Case], T]) -> T:
        """What is the same in every air of the job, worked out once."""
        if work not in self.ground.known:
            self.ground.known[work] = work(self)
        return cast(T, self.ground.known[work])

    def here(self, work: Callable[[Case], T]) -> T:
        """What is worked out once in this air."""
        if work not in self._known:
            self._known[work] = work(self)
        return cast(T, self._known[work])

    def in_room(self, name: str) -> InRoom:
        """What is known of a room with its layers drying as they do in this case."""
        if name not in self._rooms:
            key = name, tuple(self._wetting.get(name, ()))
            known = self.ground.rooms.get(key)
            self._rooms[name] = self.ground.rooms[key] = InRoom() if known is None else known
        return self._rooms[name]

    def air(self, step: Step) -> RoomAir:
        """The air a step is done in: its room's, as other layers wet it; as warm as the floor if it lies on it."""
        air = self.air_of(step)
        return air if isinstance(air, RoomAir) else air.whole

    def air_of(self, step: Step) -> Air:
        """The same, worked out when it is asked for."""
        return self._wetted(step, with_own=False)

    def said_of(self, step: Step) -> RoomAir:
        """The same as it is said to be, without what layers give off."""
        return air_on(self.airs[step.room], (surface.name for surface in step.surfaces))

    def by_clock(self, step: Step, wait: Wait, of: OfClock = ready) -> ByClock:
        """A function of the clock of a step's wait, for rules: another air has another clock, but the same rules."""
        return ByClock(self, step, wait, of)

    def made_by_clock(self, function: ByClock) -> MinuteFunction:
        """A function of a clock in the air of this case; steps alike share it."""
        here = self.in_room(function.step.room).said
        said = function.of, function.step.id, id(self.ground.like(function.wait))
        if said not in here:
            key = function.of, self.clock(function.step, function.wait)
            known = self.ground.made.get(key)
            here[said] = self.ground.made[key] = key[0](key[1]) if known is None else known
        return here[said]

    def clock(self, step: Step, wait: Wait) -> WaitClock:
        """The clock of a step's wait in the air it has, damper where layers wet the room."""
        if not self.ground.feels_humidity(wait):
            return self._clock(step, wait, self.said_of(step), None)
        if step.id not in self.layers:
            return self._clock(step, wait, self.air_of(step), None)
        dries = step.wait_for(step.dries_for or "")
        own = None if dries is None or dries is wait else Drying(self.clock(step, dries), self.air_of(step))
        return self._clock(step, wait, self._wetted(step, with_own=True), own)

    def _clock(self, step: Step, wait: Wait, air: Air, own: Drying | None) -> WaitClock:
        like, clocks = self.ground.like, self.in_room(step.room).clocks
        key = (air, id(like(wait)), None if own is None else id(like(own.clock.wait)))
        if key not in clocks:
            known = self.ground.clocks.get(key)
            clocks[key] = self.ground.clocks[key] = wait_clock(wait, air, own) if known is None else known
        return clocks[key]

    def _wetted(self, step: Step, with_own: bool) -> Air:
        airs = self.in_room(step.room).airs
        if (step.id, with_own) not in airs:
            self._wet_room(step.room, with_own)
        return airs[step.id, with_own]

    def _wet_room(self, name: str, with_own: bool) -> None:
        """The air of every step in a room: with its own layer, of those that have one, or without."""
        room, wetting, together = wet_room(self.job.room(name)), self._wetting.get(name, []), Together()
        airs = self.in_room(name).airs
        for step in self.job.steps_in(name):
            if with_own and step.id not in self.layers:
                continue
            said, own = self.said_of(step), (self.layers[step.id],) if with_own else ()
            others = tuple(when for id, when in wetting if id != step.id)
            key = None if room is None or not (own or others) else (said, room, own, others)
            known = said if key is None else self.ground.wet.get(key)
            if known is None and key is not None:
                known = self.ground.wet[key] = WetAir(*key, together)
            airs[step.id, with_own] = said if known is None else known

    @cached_property
    def _wetting(self) -> dict[str, list[tuple[str, tuple[Layer, Span]]]]:
        """By room the layers that wet it, by step, with the whole hours in which they do."""
        found: dict[str, list[tuple[str, tuple[Layer, Span]]]] = {}
        for step in self.job.steps if self.drying else ():
            if step.id in self.drying:
                start, end = self.drying[step.id]
                hours = start // HOUR * HOUR, -(-end // HOUR) * HOUR
                found.setdefault(step.room, []).append((step.id, (self.layers[step.id], hours)))
        return found

    @property
    def layers(self) -> dict[str, Layer]:
        """The layers that give off water in a room whose size is known, by step."""
        return self.ground.layers

    @property
    def hearings(self) -> list[Hearing]:
        """Every hearing of the job."""
        return self.ground.hearings

    @property
    def openings(self) -> dict[str, Openings]:
        """The openings of every trade."""
        return self.ground.openings

    def hours_of(self, step: Step) -> Openings:
        """The openings in which a step can be worked on."""
        return self.ground.hours_of(step)

    @property
    def hand_over_hours(self) -> Openings:
        """The openings in which the job can be handed over."""
        return self.ground.hand_over_hours

    def way_in(self, room: str) -> list[str]:
        """A room and every room it is reached through."""
        way = [room]
        while (through := self.job.room(way[-1]).reached_through) is not None and through not in way:
            way.append(through)
        return way
