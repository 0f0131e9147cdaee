"""The work of a step that lies behind: always as it was."""

from __future__ import annotations

from collections.abc import Hashable

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings, WorkClock
from sequencer.terms.minute import Minute, Span


class RecordedClock(WorkClock):
    """The work of a step as it was: it has one start, one end, and the spans that were recorded."""

    def __init__(self, openings: Openings, recorded: tuple[Span, ...]) -> None:
        super().__init__(openings, sum(end - start for start, end in recorded))
        self.recorded = recorded

    @property
    def begin(self) -> Minute:
        """The first minute of the work."""
        return self.recorded[0][0]

    @property
    def end(self) -> Minute:
        """The first minute after the work."""
        return self.recorded[-1][1]

    @property
    def alike(self) -> tuple[Hashable, ...]:
        """Its spans: no other clock gives them."""
        return (self.recorded,)

    def allowed(self, starts: NDArray[np.int64]) -> NDArray[np.bool_]:
        """True where it started."""
        return np.asarray(starts == self.begin)

    def ends(self, starts: NDArray[np.int64]) -> NDArray[np.int64]:
        """Its end, whatever the start."""
        return np.full(len(starts), self.end, dtype=np.int64)

    def pieces(self, start: Minute) -> tuple[Span, ...]:
        """Its spans, whatever the start."""
        return self.recorded
