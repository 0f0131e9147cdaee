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
        self._until: dict[Claim, Minute] = {}

    def start(self, id: str) -> Minute:
        """The first minute of a task's work; hand-over's own moment."""
        return self.times.pieces[id][0][0] if id in self.times.pieces else self.times.hand_over

    def end(self, id: str) -> Minute:
        """The first minute after a task's work."""
        return self.times.pieces[id][-1][1] if id in self.times.pieces else self.times.hand_over

    def ready(self, step: Step, wait: Wait) -> Minute:
        """When a step is ready for a wait's purpose."""
        return at(self.case.clock(step, wait).ready, self.end(step.id))

    def until(self, claim: Claim) -> Minute:
        """When a claim ends."""
        if claim not in self._until:
            end = self.end(claim.closes_with)
            self._until[claim] = end if claim.until is None else at(claim.until, end)
        return self._until[claim]

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
