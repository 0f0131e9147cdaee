"""What every rule looks at: the job, the air of its rooms, and the clock of every wait."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from sequencer.air.hourly import RoomAir, air_on
from sequencer.network.hours import Openings
from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Span
from sequencer.terms.wait import Wait
from sequencer.waits.clock import Drying, WaitClock, wait_clock
from sequencer.waits.wetting import Layer, Layers, WetRoom, WhenLayers, feels_humidity, layer_of, wet_room, wetted


class Case:
    """A job with the air of each of its rooms.

    `drying`: when layers are taken to wet their rooms, by step; a layer's own water wets the air it dries in itself.
    """

    def __init__(self, job: Job, airs: dict[str, RoomAir], drying: Mapping[str, Span] | None = None) -> None:
        self.job = job
        self.airs = airs
        self.drying = dict(drying or {})
        self._clocks: dict[tuple[RoomAir, Wait, Wait | None], WaitClock] = {}
        self._hours: dict[tuple[str, bool, bool], Openings] = {}
        self._wet: dict[tuple[RoomAir, WetRoom, Layers, WhenLayers], RoomAir] = {}

    def air(self, step: Step) -> RoomAir:
        """The air a step is done in: its room's, as other layers wet it; as warm as the floor if it lies on it."""
        return self._on(step, self._wetted(step, ()))

    def clock(self, step: Step, wait: Wait) -> WaitClock:
        """The clock of a step's wait in the air it has, damper where layers wet the room."""
        if not feels_humidity(wait):
            return self._clock(wait, self._on(step, self.airs[step.room]), None)
        layer = self.layers.get(step.id)
        if layer is None:
            return self._clock(wait, self.air(step), None)
        dries = step.wait_for(step.dries_for or "")
        own = None if dries is None or dries is wait else Drying(self.clock(step, dries), self.air(step))
        return self._clock(wait, self._on(step, self._wetted(step, (layer,))), own)

    def _clock(self, wait: Wait, air: RoomAir, own: Drying | None) -> WaitClock:
        key = (air, wait, None if own is None else own.clock.wait)
        if key not in self._clocks:
            self._clocks[key] = wait_clock(wait, air, own)
        return self._clocks[key]

    def _on(self, step: Step, air: RoomAir) -> RoomAir:
        return air_on(air, (surface.name for surface in step.surfaces))

    def _wetted(self, step: Step, own: Layers) -> RoomAir:
        air, room, others = self.airs[step.room], wet_room(self.job.room(step.room)), self._others(step)
        if room is None or not (own or others):
            return air
        key = (air, room, own, others)
        if key not in self._wet:
            self._wet[key] = wetted(air, room, own, others)
        return self._wet[key]

    def _others(self, step: Step) -> WhenLayers:
        """The layers of other steps in a step's room, with the time they wet it."""
        there = (other.id for other in self.job.steps_in(step.room) if other.id in self.drying and other is not step)
        return tuple((self.layers[id], self.drying[id]) for id in there)

    @cached_property
    def layers(self) -> dict[str, Layer]:
        """The layers that give off water in a room whose size is known, by step."""
        found = ((step.id, layer_of(step)) for step in self.job.steps if self.job.room(step.room).volume is not None)
        return {id: layer for id, layer in found if layer is not None}

    @cached_property
    def openings(self) -> dict[str, Openings]:
        """The openings of every trade."""
        return {name: Openings(trade.days) for name, trade in self.job.trades.items()}

    def hours_of(self, step: Step) -> Openings:
        """The openings in which a step can be worked on: its trade's, while the house is open and bears its noise."""
        house = self.job.house
        key = (step.trade, step.noisy and house.noise is not None, step.where is None and house.access is not None)
        if key not in self._hours:
            _, quiet, entered = key
            openings = self.openings[step.trade]
            openings = openings.shared_with(house.noise or ()) if quiet else openings
            self._hours[key] = openings.shared_with(house.access or ()) if entered else openings
        return self._hours[key]

    @cached_property
    def hand_over_hours(self) -> Openings:
        """The openings in which the job can be handed over."""
        openings, access = self.openings[self.job.hand_over_trade], self.job.house.access
        return openings if access is None else openings.shared_with(access)

    def way_in(self, room: str) -> list[str]:
        """A room and every room it is reached through."""
        way = [room]
        while (through := self.job.room(way[-1]).reached_through) is not None and through not in way:
            way.append(through)
        return way
