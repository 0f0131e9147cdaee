"""What every rule looks at: the job, the air of its rooms, and the clock of every wait."""

from __future__ import annotations

from functools import cached_property

from sequencer.air.hourly import RoomAir, air_on
from sequencer.network.hours import Openings
from sequencer.terms.job import Job, Step
from sequencer.terms.wait import Wait
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.wetting import WetRoom, wet_room, wetted


class Case:
    """A job with the air of each of its rooms."""

    def __init__(self, job: Job, airs: dict[str, RoomAir]) -> None:
        self.job = job
        self.airs = airs
        self._clocks: dict[tuple[RoomAir, Wait], WaitClock] = {}
        self._quiet: dict[str, Openings] = {}
        self._wet: dict[tuple[RoomAir, Wait, WetRoom], RoomAir] = {}

    def air(self, step: Step) -> RoomAir:
        """The air a step's layer has: that of its room, as warm as the floor where it lies on it."""
        return air_on(self.airs[step.room], (surface.name for surface in step.surfaces))

    def clock(self, step: Step, wait: Wait) -> WaitClock:
        """The clock of a step's wait in the air it has, damper where the layer wets its room."""
        air = self._wetted(step, wait)
        key = (air, wait)
        if key not in self._clocks:
            self._clocks[key] = wait_clock(wait, air)
        return self._clocks[key]

    def _wetted(self, step: Step, wait: Wait) -> RoomAir:
        wet = wet_room(step, wait, self.job.room(step.room))
        if wet is None:
            return self.air(step)
        key = (self.air(step), step.wait_for(step.dries_for or "") or wait, wet)
        if key not in self._wet:
            self._wet[key] = wetted(key[1], key[0], wet)
        return self._wet[key]

    @cached_property
    def openings(self) -> dict[str, Openings]:
        """The openings of every trade."""
        return {name: Openings(trade.days) for name, trade in self.job.trades.items()}

    def hours_of(self, step: Step) -> Openings:
        """The openings in which a step can be worked on: its trade's, and for noise those the house allows."""
        noise = self.job.house.noise
        if not step.noisy or noise is None:
            return self.openings[step.trade]
        if step.trade not in self._quiet:
            self._quiet[step.trade] = self.openings[step.trade].shared_with(noise)
        return self._quiet[step.trade]

    @cached_property
    def booked(self) -> set[str]:
        """Ids of steps with a firm visit."""
        return {booking.step for booking in self.job.bookings}
