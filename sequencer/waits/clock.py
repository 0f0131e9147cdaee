"""One wait in one room's air: when it is ready, for every possible end of work, and how that was worked out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.progress import NEVER, PARTS, Minutes, Progress, progress_of
from sequencer.waits.rate import depth_factor
from sequencer.waits.working import working


def wait_clock(wait: Wait, air: RoomAir) -> WaitClock:
    """The clock of a wait in a room's air. KeyError if the table has no such law."""
    return WaitClock(wait, air, progress_of(wait, air))


@dataclass(frozen=True, eq=False)
class WaitClock:
    """A wait, its room's air, and the law's progress through that air."""

    wait: Wait
    air: RoomAir
    progress: Progress

    def ready(self, ends: Minutes) -> Minutes:
        """int64[m]: the minute each layer is ready, for ends of work int64[m]; NEVER where it does not get there.

        The later of the law's own time and the end of work plus the floor, rounded up to a whole minute. After the last
        hour of air that hour's air goes on. For ends in order ready never falls, which is asserted.
        """
        needed = round(self.reference_hours * HOUR * PARTS)
        by_law = self.progress.reached(self.progress.at(ends) + needed)
        readies: Minutes = np.maximum(by_law, ends + self.floor)
        in_order = bool(np.all(ends[1:] >= ends[:-1]))
        assert not in_order or bool(np.all(readies[1:] >= readies[:-1])), f"{self.wait.place}: ends later, ready sooner"
        return readies

    def latest(self, ends: Minutes, readies: Minutes) -> Minutes | None:
        """int64[m]: the last minute a listener may start, or None if that does not matter."""
        if self.wait.within_minutes is None:
            return None
        return (readies if self.wait.within_of_ready else ends) + self.wait.within_minutes

    def hours(self, end: Minute) -> float:
        """How long the wait takes from an end of work [h]; infinite if it never ends."""
        ready = self._ready_at(end)
        return float("inf") if ready >= NEVER else (ready - end) / HOUR

    def working(self, end: Minute) -> str:
        """How this wait comes to its length from an end of work, as one sentence without a full stop."""
        return working(self.wait, self.air, self.progress, end, self._ready_at(end), self.floor)

    @property
    def reference_hours(self) -> float:
        """How long it takes in the wait's reference air, at its own depth [h]."""
        return self.wait.hours * depth_factor(self.wait)

    @property
    def floor(self) -> int:
        """Never under this, by the clock [min]."""
        return -int(-round((self.wait.floor_hours or 0.0) * HOUR, 6) // 1)

    def _ready_at(self, end: Minute) -> Minute:
        return int(self.ready(np.array([end], np.int64))[0])
