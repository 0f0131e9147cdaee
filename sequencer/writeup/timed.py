"""What every part of the write-up looks at: the case, the network and the time of each step."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable
from functools import cached_property
from typing import TypeVar

import numpy as np

from sequencer.audit import Times
from sequencer.network.case import Case
from sequencer.network.closing import closing_claim
from sequencer.network.model import (
    AllowedStarts,
    AtMost,
    Claim,
    MinuteFunction,
    Network,
    OneAtATime,
    Order,
    WaitFor,
    Window,
)
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute
from sequencer.terms.wait import Wait
from sequencer.writeup.turns import Turns

T = TypeVar("T")


class Timed:
    """A case with a time for every step."""

    def __init__(self, case: Case, network: Network, times: Times) -> None:
        self.case = case
        self.network = network
        self.times = times
        self._after: dict[tuple[MinuteFunction, Minute], Minute] = {}
        self._ready: dict[tuple[str, str], Minute] = {}
        self._working: dict[tuple[str, str], str] = {}

    def start(self, id: str) -> Minute:
        """The first minute of a task's work; hand-over's own moment."""
        return self.times.pieces[id][0][0] if id in self.times.pieces else self.times.hand_over

    def end(self, id: str) -> Minute:
        """The first minute after a task's work."""
        return self.times.pieces[id][-1][1] if id in self.times.pieces else self.times.hand_over

    def ready(self, step: Step, wait: Wait) -> Minute:
        """When a step is ready for a wait's purpose."""
        key = (step.id, wait.purpose)
        if key not in self._ready:
            self._ready[key] = at(self.case.clock(step, wait).ready, self.end(step.id))
        return self._ready[key]

    def working(self, step: Step, wait: Wait) -> str:
        """How a step's wait comes to its length, in one sentence."""
        key = (step.id, wait.purpose)
        if key not in self._working:
            self._working[key] = self.case.clock(step, wait).working(self.end(step.id))
        return self._working[key]

    def until(self, claim: Claim) -> Minute:
        """When a claim ends."""
        end = self.end(claim.closes_with)
        return end if claim.until is None else self._at(claim.until, end)

    def lets_go(self, rule: Order | WaitFor) -> Minute:
        """When an order or a wait lets go of the task behind."""
        end = self.end(rule.before)
        return self._at(rule.ready, end) if isinstance(rule, WaitFor) else end

    def _at(self, function: MinuteFunction, minute: Minute) -> Minute:
        key = (function, minute)
        if key not in self._after:
            self._after[key] = at(function, minute)
        return self._after[key]

    def opens(self, step: Step) -> Minute:
        """When a step's surfaces open again."""
        return self.until(closing_claim(self.case, step))

    @cached_property
    def binding(self) -> dict[str, list[Order | WaitFor]]:
        """The orders and waits of every task."""
        found: dict[str, list[Order | WaitFor]] = {id: [] for id in self.network.tasks}
        for order in self.network.of(Order):
            found[order.after].append(order)
        for wait in self.network.of(WaitFor):
            found[wait.after].append(wait)
        return found

    @cached_property
    def sharing(self) -> dict[str, list[Turns]]:
        """The groups of claims of every task."""
        found: dict[str, list[Turns]] = {id: [] for id in self.network.tasks}
        groups: list[OneAtATime | AtMost] = [*self.network.of(OneAtATime), *self.network.of(AtMost)]
        for group in groups:
            turns = Turns(group.claims, group.why, self.start, self.until)
            for task in dict.fromkeys(claim.task for claim in group.claims):
                found[task].append(turns)
        return found

    @cached_property
    def allowing(self) -> dict[str, list[AllowedStarts]]:
        """The rules on the starts of every task."""
        return _by(self.network.of(AllowedStarts), lambda rule: rule.task)

    @cached_property
    def windows(self) -> dict[str, list[Window]]:
        """The windows that open with every task."""
        return _by(self.network.of(Window), lambda rule: rule.before)

    @cached_property
    def hearings(self) -> tuple[Hearing, ...]:
        """Every hearing of the job."""
        return tuple(hearings(self.case.job))

    @cached_property
    def heard(self) -> dict[str, list[Hearing]]:
        """What every step hears."""
        return _by(self.hearings, lambda hearing: hearing.listener.id)

    @cached_property
    def given(self) -> dict[str, list[Hearing]]:
        """Who hears every step."""
        return _by(self.hearings, lambda hearing: hearing.giver.id)


def _by(many: Iterable[T], key: Callable[[T], str]) -> dict[str, list[T]]:
    found: dict[str, list[T]] = defaultdict(list)
    for one in many:
        found[key(one)].append(one)
    return found


def at(function: MinuteFunction, minute: Minute) -> Minute:
    """A minute function at one minute."""
    return int(function(np.array([minute], dtype=np.int64))[0])
