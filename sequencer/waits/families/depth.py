"""How a layer's depth stretches its wait."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from sequencer.waits.families.family import power


class Depth(Protocol):
    """A rule for depth. `reference` [mm]: the depth a wait's hours hold for."""

    @property
    def reference(self) -> float:
        """The depth a wait's hours hold for [mm]."""

    def factor(self, depth: float) -> float:
        """What a wait's hours are multiplied by at a depth [mm]; 1 at the reference."""

    def words(self) -> str:
        """The rule as one line."""


@dataclass(frozen=True)
class Power:
    """Time grows with a power of the depth [mm]."""

    reference: float
    exponent: float

    def factor(self, depth: float) -> float:
        return float((depth / self.reference) ** self.exponent)

    def words(self) -> str:
        return power(f"(depth / {self.reference:g} mm)", self.exponent)


@dataclass(frozen=True)
class SlowerBeyond:
    """So many days a millimetre up to a knee [mm], more beyond it."""

    reference: float
    knee: float
    days: float
    days_beyond: float

    def factor(self, depth: float) -> float:
        return self._days(depth) / self._days(self.reference)

    def words(self) -> str:
        rule = f"as {self.days:g} d/mm to {self.knee:g} mm, {self.days_beyond:g} d/mm beyond"
        return f"{rule}; hours hold for {self.reference:g} mm"

    def _days(self, depth: float) -> float:
        return self.days * min(depth, self.knee) + self.days_beyond * max(depth - self.knee, 0.0)
