"""What every part of the write-up looks at: the case, the network and the time of each step."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from sequencer.audit import Times
from sequencer.network.case import Case
from sequencer.network.closing import closing_claim
from sequencer.network.model import AtMost, Claim, MinuteFunction, Network, OneAtATime, Order, WaitFor
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute
from sequencer.terms.wait import Wait


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
    def sharing(self) -> dict[str, list[OneAtATime | AtMost]]:
        """The groups of claims of every task."""
        found: dict[str, list[OneAtATime | AtMost]] = {id: [] for id in self.network.tasks}
        groups: list[OneAtATime | AtMost] = [*self.network.of(OneAtATime), *self.network.of(AtMost)]
        for group in groups:
            for task in dict.fromkeys(claim.task for claim in group.claims):
                found[task].append(group)
        return found

    @cached_property
    def hearings(self) -> tuple[Hearing, ...]:
        """Every hearing of the job."""
        return tuple(hearings(self.case.job))


def at(function: MinuteFunction, minute: Minute) -> Minute:
    """A minute function at one minute."""
    return int(function(np.array([minute], dtype=np.int64))[0])
