"""Ways to give something by degrees, the smallest first."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR

HALF_AN_HOUR = HOUR // 2
"""By how much hours of the day are made longer, and visits shorter [min]. The grain of an answer, nothing else."""

Possible = Callable[[Job], bool]


@dataclass(frozen=True)
class Way:
    """A way to give a cause, in words, and the job if it is given so."""

    words: str
    job: Job


@dataclass(frozen=True)
class Ladder:
    """Ways to give a cause, rung by rung, the smallest first: the job then, and what is given in words.

    `lighter`: for a rung that is enough a way that asks for less, to be tried too.
    """

    rungs: Sequence[int]
    change: Callable[[int], Job]
    words: Callable[[int], str]
    lighter: Callable[[int], Way] | None = None

    def first(self, possible: Possible) -> Way | None:
        """The first way with which a plan is possible; None if not even the last is enough."""
        if not self.rungs or not possible(self.change(self.rungs[-1])):
            return None
        last = len(self.rungs) - 1
        rung = self.rungs[bisect_left(self.rungs, True, 0, last, key=lambda rung: possible(self.change(rung)))]
        lighter = self.lighter(rung) if self.lighter else None
        return lighter if lighter and possible(lighter.job) else Way(self.words(rung), self.change(rung))
