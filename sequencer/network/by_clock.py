"""Functions of the clock of a wait, for rules: another air gives another clock, but leaves the rule as it is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from sequencer.network.model import MinuteFunction, Minutes
from sequencer.terms.job import Step
from sequencer.terms.wait import Wait
from sequencer.waits.clock import WaitClock

if TYPE_CHECKING:
    from sequencer.network.case import Case

OfClock: TypeAlias = Callable[[WaitClock], MinuteFunction]


def ready(clock: WaitClock) -> MinuteFunction:
    """When a wait is ready."""
    return clock.ready


class ByClock:
    """A function `of` the clock that a step's wait has in the air of a case."""

    def __init__(self, case: Case, step: Step, wait: Wait, of: OfClock) -> None:
        self._case = case
        self.step, self.wait, self.of = step, wait, of

    def __call__(self, ends: Minutes) -> Minutes:
        return self._case.made_by_clock(self)(ends)
