"""One law: how air stretches a wait. Its constants stand in the table, its pace is a ratio of two drives."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.waits.families.depth import Depth
from sequencer.waits.families.family import Family


@dataclass(frozen=True)
class Typical:
    """What a middling layer of this kind takes in the law's reference air and depth [h]."""

    hours: float
    what: str


@dataclass(frozen=True)
class Law:
    """A law of the table.

    `temperature` [C] and `humidity` [0..1]: its reference air, where its rate is 1. `warm` [C] and `damp` [0..1]: the
    air it is known to hold in. `spread`: how far hours and constants scatter, in words. `checked`: against what.
    """

    name: str
    family: Family
    temperature: float
    humidity: float
    warm: tuple[float, float]
    damp: tuple[float, float]
    spread: str
    source: str
    checked: str
    depth: Depth | None = None
    typical: Typical | None = None
