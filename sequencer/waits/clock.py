"""One wait in one room's air: when it is ready, for every possible end of work."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Measured, Wait
from sequencer.waits.limits import BrokenHours
from sequencer.waits.progress import NEVER, PARTS, Air, AnyProgress, Bools, Minutes, progress_of
from sequencer.waits.rate import depth_factor
from sequencer.waits.words import length
from sequencer.waits.working import working


@dataclass(frozen=True, eq=False)
class Drying:
    """A layer's own water: the clock of the wait over which it leaves, and the room's air once it has left."""

    clock: WaitClock
    air: Air

    def gone(self, ends: Minutes) -> Minutes:
        """int64[m]: the whole hour from which the layer no longer wets its room."""
        return -(-self.clock.ready(ends) // HOUR) * HOUR


def wait_clock(wait: Wait, air: Air, drying: Drying | None = None) -> WaitClock:
    """The clock of a wait in a room's air, as its own layer wets it as long as it dries.

    KeyError for a law the table lacks.
    """
    stages = tuple(wait_clock(stage, air) for stage in wait.then)
    later = None if drying is None else wait_clock(wait, drying.air)
    return WaitClock(wait, air, progress_of(wait, air), stages, drying, later)


@dataclass(frozen=True, eq=False)
class WaitClock:
    """A wait, the air it is `made_in`, and the law's progress through that air.

    `stages`: the clocks of what follows. `drying`: until when the air is so; `later`: the same wait in the air then.
    """

    wait: Wait
    made_in: Air
    progress: AnyProgress
    stages: tuple[WaitClock, ...] = ()
    drying: Drying | None = None
    later: WaitClock | None = None

    @property
    def air(self) -> RoomAir:
        """The air of all hours."""
        return self.made_in if isinstance(self.made_in, RoomAir) else self.made_in.whole

    def ready(self, ends: Minutes) -> Minutes:
        """int64[m]: the minute each layer is ready, for ends of work int64[m]; NEVER where it does not get there.

        The later of the law's own time and the end of work plus the floor, rounded up to a whole minute. After the last
        hour of air that hour's air goes on. A reading ends the wait of all work done before it, or it is not over
        before that reading; no floor gives way to it. For ends in order ready never falls, which is asserted.
        """
        by_law = self._over(ends, self._gone(ends), self.later)
        read = self.wait.measured
        if read is not None:
            found = read.at if read.ready else np.maximum(by_law, read.at)
            by_law = np.where(ends <= read.at, found, by_law)
        readies: Minutes = np.maximum(by_law, ends + self.floor)
        in_order = bool((ends[1:] >= ends[:-1]).all())
        assert not in_order or bool((readies[1:] >= readies[:-1]).all()), f"{self.wait.place}: ends later, ready sooner"
        return readies

    def latest(self, ends: Minutes, readies: Minutes) -> Minutes | None:
        """int64[m]: the last minute a listener may start, or None if that does not matter."""
        if self.wait.within_minutes is None:
            return None
        return (readies if self.wait.within_of_ready else ends) + self.wait.within_minutes

    def unspoilt(self, ends: Minutes, readies: Minutes) -> Bools:
        """bool[m]: True where the wait from end of work to ready meets no hour that would spoil the layer.

        Every hour touched counts; hours outside the air are as its nearest hour.
        """
        ok, gone = np.ones(len(ends), np.bool_), self._gone(ends)
        for here, later in self._spoilt:
            if gone is None or later is None:
                ok &= ~here.touched(ends, readies)
            else:
                ok &= ~here.touched(ends, np.minimum(readies, gone))
                ok &= ~((readies > gone) & later.touched(gone, readies))
        return ok

    @cached_property
    def _spoilt(self) -> list[tuple[BrokenHours, BrokenHours | None]]:
        """The hours that would spoil the layer, in its air and in the air later on; one entry a limit."""
        later = None if self.later is None else self.later.made_in
        return [
            (BrokenHours.of(limit, self.made_in), None if later is None else BrokenHours.of(limit, later))
            for limit in self.wait.limits
            if limit.kind == "spoils"
        ]

    def hours(self, end: Minute) -> float:
        """How long the wait takes from an end of work [h]; infinite if it never ends."""
        ready = self._ready_at(end)
        return float("inf") if ready >= NEVER else (ready - end) / HOUR

    def share(self, end: Minute, now: Minute) -> float:
        """How much of the wait is over at a moment [0..1]: by its law or by its floor, whichever is behind."""
        if now >= self._ready_at(end):
            return 1.0
        by_law = self.for_one(end)._hours_done(end, now) / self.reference_hours if self.reference_hours else 1.0
        return max(min(by_law, (now - end) / self.floor if self.floor else 1.0), 0.0)

    def working(self, end: Minute) -> str:
        """How this wait comes to its length from an end of work, as one sentence without a full stop."""
        return self.for_one(end)._working(end)

    def for_one(self, end: Minute) -> WaitClock:
        """The same clock for one end of work alone: all its air is then the air this one layer has."""
        gone = self._gone(np.array([end], np.int64))
        if gone is None or self.later is None:
            return self
        air, dry = self.air, self.later.air
        wet = air.first + HOUR * np.arange(len(air.humidity)) < gone[0]
        humidity = np.where(wet, air.humidity, dry.humidity)
        codes = np.where(wet, air.how_humidity, dry.how_humidity)
        return wait_clock(self.wait, replace(air, humidity=humidity, how_humidity=codes))

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

    def _gone(self, ends: Minutes) -> Minutes | None:
        return None if self.drying is None else self.drying.gone(ends)

    def _over(self, starts: Minutes, gone: Minutes | None, later: WaitClock | None) -> Minutes:
        """int64[m]: when all stages are over by their laws; from `gone` on they go as in the later air."""
        needed = round(self._first_hours * HOUR * PARTS)
        over = self.progress.reached(self.progress.at(starts) + needed)
        if gone is not None and later is not None and bool((over > gone).any()):
            change = np.maximum(np.minimum(gone, over), starts)
            done = self.progress.at(change) - self.progress.at(starts)
            over = np.where(over > gone, later.progress.reached(later.progress.at(change) + needed - done), over)
        over = np.maximum(over, starts)
        for number, stage in enumerate(self.stages):
            then = None if later is None else later.stages[number]
            over = np.where(over >= NEVER, NEVER, stage._over(over, gone, then))
        return over

    def _over_at(self, end: Minute) -> Minute:
        """When the first stage is over."""
        alone = replace(self, stages=())
        return int(alone._over(np.array([end], np.int64), None, None)[0])

    def _ready_at(self, end: Minute) -> Minute:
        return int(self.ready(np.array([end], np.int64))[0])

    def _hours_done(self, end: Minute, now: Minute) -> float:
        """Hours of reference air done between two moments, stage by stage [h]."""
        over = self._over_at(end)
        if now < over:
            begin, here = self.progress.at(np.array([end, max(now, end)], np.int64)).tolist()
            return float((here - begin) / (HOUR * PARTS))
        done = self._first_hours
        for stage in self.stages:
            done += stage._hours_done(over, max(now, over))
            over = stage._over_at(over)
        return done

    def _working(self, end: Minute) -> str:
        ready, over = self._ready_at(end), self._over_at(end)
        parts = [working(self.wait, self.air, self.progress, end, over)]
        for stage in self.stages:
            parts.append(f"then {working(stage.wait, stage.air, stage.progress, over, stage._over_at(over))}")
            over = stage._over_at(over)
        read = self.wait.measured
        if read is not None and end <= read.at:
            found = "ready" if read.ready else "not ready yet"
            parts.append(f"{found} by a reading{_words(read)} after {length(read.at - end)}")
        if self.floor and NEVER > ready == end + self.floor:
            parts.append(f"never under {length(self.floor)}")
        if self.stages and ready < NEVER:
            parts.append(f"in all {length(ready - end)}")
        return "; ".join(parts)


def _words(read: Measured) -> str:
    return f" of {read.words}" if read.words else ""
