"""How a wait comes to its length, as one sentence: `48 h at 20 C; at 17 C here, 57 h`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.air.layers import HOW
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.families.by_the_clock import Fixed
from sequencer.waits.law import Law
from sequencer.waits.limits import broken_hours
from sequencer.waits.progress import NEVER, AnyProgress
from sequencer.waits.rate import depth_factor
from sequencer.waits.table import LAWS
from sequencer.waits.words import air_words, broken_words, length

KNOWN_BY = {
    "reading": "read by a meter",
    "carried forward": "as the meter last read",
    "outdoors": "by outdoor air brought indoors",
}
"""How hours are known that rest on no words of the job."""


def working(wait: Wait, air: RoomAir, progress: AnyProgress, end: Minute, ready: Minute) -> str:
    """The sentence for a layer whose work ends at `end` and that its law finds ready at `ready`; no full stop."""
    hours = slice(air.hour(end), air.hour(max(ready - 1, end)) + 1)
    met = _Met(wait, LAWS[wait.law], air, progress, hours)
    still = met.still_words()
    if ready >= NEVER:
        parts = [met.reference_words(), f"{met.here_words()}never: {still}"]
    else:
        here = length(ready - end)
        in_air = met.here_words() + here if met.air_counts or still else ""
        stood = f"stands still for {met.still_hours} h of it, {still}" if still else ""
        parts = [met.reference_words(), in_air, stood, met.outside_words()]
    return "; ".join(part for part in (*parts, met.wet_layers_words(), *met.known_words(), met.assumed_words()) if part)


@dataclass(frozen=True)
class _Met:
    """A wait and the hours of air it meets."""

    wait: Wait
    law: Law
    air: RoomAir
    progress: AnyProgress
    hours: slice

    @property
    def air_counts(self) -> bool:
        return not isinstance(self.law.family, Fixed)

    @property
    def humidity_counts(self) -> bool:
        return self.law.family.humidity_counts

    @property
    def temperature(self) -> float:
        """The mean of the hours met [C]: of the air, or of the surface where humidity does not count."""
        return float(np.mean((self.air.temperature if self.humidity_counts else self.air.on)[self.hours]))

    @property
    def humidity(self) -> float:
        """The mean of the hours met [0..1]."""
        return float(np.mean(self.air.humidity[self.hours]))

    @property
    def still_hours(self) -> int:
        """The hours without progress."""
        return int(np.count_nonzero(self.progress.pace[self.hours] == 0))

    def reference_words(self) -> str:
        wait, law = self.wait, self.law
        if not self.air_counts:
            return f"{length(wait.hours * HOUR)} by the clock"
        temperature = law.temperature if wait.at_temperature is None else wait.at_temperature
        humidity = law.humidity if wait.at_humidity is None else wait.at_humidity
        words = f"{length(wait.hours * HOUR)} at {air_words(temperature, humidity if self.humidity_counts else None)}"
        if wait.strength is not None:
            words += f" to {round(100 * wait.strength)} % of its strength"
        if wait.thickness is not None and law.depth is not None:
            deep = length(wait.hours * depth_factor(wait) * HOUR)
            words += f" for {law.depth.reference:g} mm, {deep} for {wait.thickness:g} mm"
        return words

    def here_words(self) -> str:
        if not self.air_counts:
            return "here "
        where = "here" if self.humidity_counts or self.air.surface is None else "on the floor here"
        return f"at {air_words(round(self.temperature), self.humidity if self.humidity_counts else None)} {where}, "

    def still_words(self) -> str:
        """Why progress stands still in some hours; empty if it does not."""
        if not self.still_hours:
            return ""
        stops = [limit for limit in self.wait.limits if limit.kind == "stops"]
        broken = [broken_words(limit) for limit in stops if broken_hours(limit, self.air)[self.hours].any()]
        return " or ".join(dict.fromkeys(broken)) or self.law.family.still_words

    def outside_words(self) -> str:
        """Says so when the air met is on average outside the air the law is known to hold in."""
        (coldest, hottest), (driest, dampest) = self.law.warm, self.law.damp
        if not coldest <= round(self.temperature, 1) <= hottest:
            return f"the law is only known from {coldest:g} to {hottest:g} C"
        if self.humidity_counts and not driest <= round(self.humidity, 2) <= dampest:
            return f"the law is only known from {100 * driest:g} to {100 * dampest:g} %"
        return ""

    def wet_layers_words(self) -> str:
        wet = HOW.index("wetted")
        return "in air that wet layers make damp" if bool((self.air.how_humidity[self.hours] == wet).any()) else ""

    def known_words(self) -> Iterator[str]:
        """How the hours are known that were neither said nor assumed."""
        total = self.hours.stop - self.hours.start
        for how, words in KNOWN_BY.items():
            met = self.air.how_temperature[self.hours] == HOW.index(how)
            if self.humidity_counts:
                met = met | (self.air.how_humidity[self.hours] == HOW.index(how))
            count = int(np.count_nonzero(met)) if self.air_counts else 0
            if count:
                yield words if count == total else f"{words} for {count} h of it"

    def assumed_words(self) -> str:
        assumed = HOW.index("assumed")
        counts = (
            ("temperature", self.air_counts, self.air.how_temperature),
            ("humidity", self.humidity_counts, self.air.how_humidity),
        )
        words = [word for word, matters, how in counts if matters and bool((how[self.hours] == assumed).any())]
        return f"{' and '.join(words)} assumed" if words else ""
