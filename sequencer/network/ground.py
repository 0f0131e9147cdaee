"""What of a job is the same in every air: hours, layers, who hears whom; worked out once for all airs it is made in."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from functools import cached_property
from typing import Any, TypeAlias
from weakref import WeakValueDictionary

from sequencer.air.hourly import RoomAir
from sequencer.network.hours import Openings
from sequencer.network.in_room import ClockKey, InRoom, RoomKey
from sequencer.network.model import MinuteFunction, StartTest
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job, Step
from sequencer.terms.wait import Wait
from sequencer.waits.clock import WaitClock
from sequencer.waits.felt import feels_humidity
from sequencer.waits.layer import Layer, Layers, WetRoom, WhenLayers, layer_of
from sequencer.waits.wetting import WetAir

WetKey: TypeAlias = tuple[RoomAir, WetRoom, Layers, WhenLayers]


class Ground:
    """A job without its air.

    `known`: what others have worked out of it, by what they worked it out with. `of_networks`: the same of networks,
    of which each is nearly the one before. `rooms`, `wet`, `clocks`, `made`, `tests`: rooms, airs, clocks and functions
    of all cases that are still in use, for those of them that have the same.
    """

    def __init__(self, job: Job) -> None:
        self.job = job
        self.known: dict[Callable[..., Any], Any] = {}
        self.of_networks: dict[Callable[..., Any], Any] = {}
        self.rooms: WeakValueDictionary[RoomKey, InRoom] = WeakValueDictionary()
        self.wet: WeakValueDictionary[WetKey, WetAir] = WeakValueDictionary()
        self.clocks: WeakValueDictionary[ClockKey, WaitClock] = WeakValueDictionary()
        self.made: WeakValueDictionary[tuple[Callable[..., Any], WaitClock], MinuteFunction] = WeakValueDictionary()
        self.tests: WeakValueDictionary[Hashable, StartTest] = WeakValueDictionary()
        self._hours: dict[tuple[str, bool, bool], Openings] = {}
        self._like: dict[int, tuple[Wait, Wait]] = {}
        self._waits: dict[Wait, Wait] = {}
        self._felt: dict[int, bool] = {}

    def like(self, wait: Wait) -> Wait:
        """One wait for all that are equal; they are kept, so that no other ever has the id of one of them."""
        if id(wait) not in self._like:
            self._like[id(wait)] = wait, self._waits.setdefault(wait, wait)
        return self._like[id(wait)][1]

    def feels_humidity(self, wait: Wait) -> bool:
        """Whether the air's humidity decides of a wait."""
        wait = self.like(wait)
        if id(wait) not in self._felt:
            self._felt[id(wait)] = feels_humidity(wait)
        return self._felt[id(wait)]

    @cached_property
    def layers(self) -> dict[str, Layer]:
        """The layers that give off water in a room whose size is known, by step; one for all that are equal."""
        found = ((step.id, layer_of(step)) for step in self.job.steps if self.job.room(step.room).volume is not None)
        like: dict[Layer, Layer] = {}
        return {id: like.setdefault(layer, layer) for id, layer in found if layer is not None}

    @cached_property
    def hearings(self) -> list[Hearing]:
        """Every hearing of the job."""
        return list(hearings(self.job))

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
