"""One wait in one room's air: when it is ready, for every possible end of work, and how that was worked out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from sequencer.air.hourly import HOW, RoomAir
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.limits import broken_hours
from sequencer.waits.progress import NEVER, PARTS, Minutes, Progress, progress_of
from sequencer.waits.rate import depth_factor
from sequencer.waits.table import LAWS
from sequencer.waits.words import air_words, broken_words, length


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
        readies: Minutes = np.maximum(by_law, ends + self._floor)
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

    @property
    def reference_hours(self) -> float:
        """How long it takes in the wait's reference air, at its own depth [h]."""
        return self.wait.hours * depth_factor(self.wait)

    def working(self, end: Minute) -> str:
        """How this wait comes to its length from an end of work, as one sentence without a full stop."""
        ready = self._ready_at(end)
        hours = self._hours_between(end, ready)
        parts = [self._reference_words(), self._here_words(end, ready, hours)]
        if ready < NEVER and self._floor and ready == end + self._floor:
            parts.append(f"never under {length(self._floor)}")
        parts += [self._still_words(hours, ready), self._assumed_words(hours)]
        return "; ".join(part for part in parts if part)

    @property
    def _floor(self) -> int:
        return -int(-(self.wait.floor_hours or 0.0) * HOUR // 1)

    @cached_property
    def _counts_humidity(self) -> bool:
        return LAWS[self.wait.law].family.humidity_counts

    def _ready_at(self, end: Minute) -> Minute:
        return int(self.ready(np.array([end], np.int64))[0])

    def _hours_between(self, end: Minute, ready: Minute) -> slice:
        """The hours of air a wait meets; to the end of the air if it is never ready."""
        return slice(self.air.hour(end), self.air.hour(max(ready - 1, end)) + 1)

    def _reference_words(self) -> str:
        law, wait = LAWS[self.wait.law], self.wait
        words = length(wait.hours * HOUR)
        if not self._air_counts:
            return f"{words} by the clock"
        humidity = law.humidity if wait.at_humidity is None else wait.at_humidity
        temperature = law.temperature if wait.at_temperature is None else wait.at_temperature
        words += f" at {air_words(temperature, humidity if self._counts_humidity else None)}"
        if wait.thickness is not None and law.depth is not None:
            deep = length(self.reference_hours * HOUR)
            words += f" for {law.depth.reference:g} mm, {deep} for {wait.thickness:g} mm"
        return words

    def _here_words(self, end: Minute, ready: Minute, hours: slice) -> str:
        if not self._air_counts and ready < NEVER:
            return ""
        humidity = float(np.mean(self.air.humidity[hours])) if self._counts_humidity else None
        here = air_words(round(float(np.mean(self.air.temperature[hours]))), humidity)
        return f"at {here} here, " + ("never" if ready >= NEVER else length(ready - end))

    @cached_property
    def _air_counts(self) -> bool:
        return self.wait.law != "fixed"

    def _still_words(self, hours: slice, ready: Minute) -> str:
        still = self.progress.pace[hours] == 0
        if not still.any():
            return ""
        reasons = [
            broken_words(limit)
            for limit in self.wait.limits
            if limit.kind == "stops" and bool(broken_hours(limit, self.air)[hours].any())
        ]
        why = " or ".join(dict.fromkeys(reasons)) or ("too damp" if self._counts_humidity else "too cold")
        return f"stands still for {int(np.count_nonzero(still))} h of it, {why}" if ready < NEVER else why

    def _assumed_words(self, hours: slice) -> str:
        assumed = HOW.index("assumed")
        temperature = self._air_counts and bool((self.air.how_temperature[hours] == assumed).any())
        humidity = self._counts_humidity and bool((self.air.how_humidity[hours] == assumed).any())
        words = [word for word, said in (("temperature", temperature), ("humidity", humidity)) if said]
        return f"{' and '.join(words)} assumed" if words else ""
