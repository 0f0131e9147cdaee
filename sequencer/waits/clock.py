"""One wait in one room's air: when it is ready, for every possible end of work, and how that was worked out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Measured, Wait
from sequencer.waits.progress import NEVER, PARTS, Minutes, Progress, progress_of
from sequencer.waits.rate import depth_factor
from sequencer.waits.words import length
from sequencer.waits.working import working


def wait_clock(wait: Wait, air: RoomAir) -> WaitClock:
    """The clock of a wait in a room's air. KeyError for a law the table lacks."""
    return WaitClock(wait, air, progress_of(wait, air), tuple(wait_clock(stage, air) for stage in wait.then))


@dataclass(frozen=True, eq=False)
class WaitClock:
    """A wait, its room's air, and the law's progress through that air.

    `stages`: the clocks of what follows.
    """

    wait: Wait
    air: RoomAir
    progress: Progress
    stages: tuple[WaitClock, ...] = ()

    def ready(self, ends: Minutes) -> Minutes:
        """int64[m]: the minute each layer is ready, for ends of work int64[m]; NEVER where it does not get there.

        The later of the law's own time and the end of work plus the floor, rounded up to a whole minute. After the last
        hour of air that hour's air goes on. A reading ends the wait of all work done before it, or it is not over
        before that reading; no floor gives way to it. For ends in order ready never falls, which is asserted.
        """
        by_law = self._first_over(ends)
        for stage in self.stages:
            by_law = np.where(by_law >= NEVER, NEVER, stage.ready(by_law))
        read = self.wait.measured
        if read is not None:
            found = read.at if read.ready else np.maximum(by_law, read.at)
            by_law = np.where(ends <= read.at, found, by_law)
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

    def share(self, end: Minute, now: Minute) -> float:
        """How much of the wait is over at a moment [0..1]: by its law or by its floor, whichever is behind."""
        if now >= self._ready_at(end):
            return 1.0
        by_law = self._hours_done(end, now) / self.reference_hours if self.reference_hours else 1.0
        return max(min(by_law, (now - end) / self.floor if self.floor else 1.0), 0.0)

    def working(self, end: Minute) -> str:
        """How this wait comes to its length from an end of work, as one sentence without a full stop."""
        ready, over = self._ready_at(end), self._over(end)
        parts = [working(self.wait, self.air, self.progress, end, over)]
        for stage in self.stages:
            parts.append(f"then {working(stage.wait, stage.air, stage.progress, over, stage._over(over))}")
            over = stage._over(over)
        read = self.wait.measured
        if read is not None and end <= read.at:
            found = "ready" if read.ready else "not ready yet"
            parts.append(f"{found} by a reading{_words(read)} after {length(read.at - end)}")
        if self.floor and NEVER > ready == end + self.floor:
            parts.append(f"never under {length(self.floor)}")
        if self.stages and ready < NEVER:
            parts.append(f"in all {length(ready - end)}")
        return "; ".join(parts)

    @property
    def reference_hours(self) -> float:
        """How long it takes in the wait's reference air, at its own depth, with all its stages [h]."""
        return self._first_hours + sum(stage.reference_hours for stage in self.stages)

    @property
    def floor(self) -> int:
        """Never under this, by the clock [min]."""
        return -int(-round((self.wait.floor_hours or 0.0) * HOUR, 6) // 1)

    @property
    def _first_hours(self) -> float:
        return self.wait.hours * depth_factor(self.wait)

    def _first_over(self, ends: Minutes) -> Minutes:
        """int64[m]: when the first stage is over by its law."""
        needed = round(self._first_hours * HOUR * PARTS)
        return np.maximum(self.progress.reached(self.progress.at(ends) + needed), ends)

    def _over(self, end: Minute) -> Minute:
        return int(self._first_over(np.array([end], np.int64))[0])

    def _ready_at(self, end: Minute) -> Minute:
        return int(self.ready(np.array([end], np.int64))[0])

    def _hours_done(self, end: Minute, now: Minute) -> float:
        """Hours of reference air done between two moments, stage by stage [h]."""
        over = self._over(end)
        if now < over:
            begin, here = self.progress.at(np.array([end, max(now, end)], np.int64)).tolist()
            return float((here - begin) / (HOUR * PARTS))
        done = self._first_hours
        for stage in self.stages:
            done += stage._hours_done(over, max(now, over))
            over = stage._over(over)
        return done


def _words(read: Measured) -> str:
    return f" of {read.words}" if read.words else ""
