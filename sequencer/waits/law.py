"""One law: how air stretches a wait. Its constants stand in the table, its pace is a ratio of two drives."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp

from sequencer.waits.families.depth import Depth
from sequencer.waits.families.family import Family

NINE_IN_TEN = 1.645
"""Standard deviations of a normal spread between which nine cases in ten lie."""


@dataclass(frozen=True)
class Typical:
    """What a middling layer of this kind takes in the law's reference air and depth [h]."""

    hours: float
    what: str


@dataclass(frozen=True)
class Law:
    """A law of the table.

    `temperature` [C] and `humidity` [0..1]: its reference air, where its rate is 1. `warm` [C] and `damp` [0..1]: the
    air it is known to hold in. `scatter`: standard deviation of ln(hours) from job to job; `spread`: how far the
    constants are uncertain, in words. `checked`: against what.
    """

    name: str
    family: Family
    temperature: float
    humidity: float
    warm: tuple[float, float]
    damp: tuple[float, float]
    scatter: float
    spread: str
    source: str
    checked: str
    depth: Depth | None = None
    typical: Typical | None = None

    @property
    def range(self) -> tuple[float, float]:
        """What hours are multiplied by in a quick and a slow case: 5 and 95 in a hundred are below."""
        return exp(-NINE_IN_TEN * self.scatter), exp(NINE_IN_TEN * self.scatter)
