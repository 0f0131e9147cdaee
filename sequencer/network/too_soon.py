"""The rooms in which times do not keep what the air asks: layers that are not ready yet, starts it does not allow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from sequencer.network.ahead import ahead
from sequencer.network.build import build
from sequencer.network.case import Case
from sequencer.network.model import (
    HAND_OVER,
    AllowedStarts,
    Claim,
    MinuteFunction,
    Network,
    OneAtATime,
    WaitFor,
    Window,
)
from sequencer.terms.minute import Minute, Span


def rooms_too_soon(taken: Case, case: Case, pieces: Mapping[str, Sequence[Span]], hand_over: Minute) -> set[str]:
    """The rooms whose steps, or layers, break a rule in the air of a case. `pieces`: spans of work by step.

    `taken`: the case in whose air they were planned: the rules that are the same there are kept already.
    """
    kept = {id(rule) for rule in build(taken).rules}
    network = ahead(build(case))
    network = replace(network, rules=tuple(rule for rule in network.rules if id(rule) not in kept))
    spans = {id: (each[0][0], each[-1][1]) for id, each in pieces.items()} | {HAND_OVER: (hand_over, hand_over)}
    broken = _Held(network, spans).broken()
    return {case.job.step(id).room for id in broken if id != HAND_OVER and id in pieces}


class _Held:
    """A network held against spans of work. Rules that no air changes are kept already, so is what a visit asks."""

    def __init__(self, network: Network, spans: Mapping[str, Span]) -> None:
        self.network, self.spans = network, spans
        self._known: dict[tuple[MinuteFunction, str], Minute] = {}

    def broken(self) -> Iterator[str]:
        """The ids of tasks that break a rule, or are kept waiting by one that is broken."""
        for wait in self.network.of(WaitFor):
            if self._start(wait.after) < self._said(wait.ready, wait.before):
                yield wait.before
        for window in self.network.of(Window):
            if self._start(window.after) > self._said(window.latest, window.before):
                yield window.before
        for test in self.network.of(AllowedStarts):
            if test.booking is None and test.without is None and not self._allowed(test):
                yield test.task
        for group in self.network.of(OneAtATime):
            if any(claim.until is not None for claim in group.claims) and self._overlap(group.claims):
                yield from (claim.closes_with for claim in group.claims if claim.until is not None)

    def _start(self, task: str) -> Minute:
        return self.spans[task][0]

    def _said(self, function: MinuteFunction, task: str) -> Minute:
        """What a function says of the end of a task."""
        key = function, task
        if key not in self._known:
            self._known[key] = int(function(np.array([self.spans[task][1]], dtype=np.int64))[0])
        return self._known[key]

    def _allowed(self, test: AllowedStarts) -> bool:
        start, end = (np.array([moment], dtype=np.int64) for moment in self.spans[test.task])
        return bool(test.allowed(start, end)[0])

    def _overlap(self, claims: Sequence[Claim]) -> bool:
        spans = sorted((self._start(claim.task), self._closes(claim)) for claim in claims)
        until = spans[0][1]
        for start, end in spans[1:]:
            if start < until:
                return True
            until = max(until, end)
        return False

    def _closes(self, claim: Claim) -> Minute:
        end = self.spans[claim.closes_with][1]
        return end if claim.until is None else self._said(claim.until, claim.closes_with)
