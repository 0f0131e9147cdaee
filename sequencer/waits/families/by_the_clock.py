"""Waits the air does not stretch, or stretches by a rule."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.moist import Floats


@dataclass(frozen=True)
class Fixed:
    """The same in every air."""

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.ones_like(temperature)

    def words(self) -> str:
        return "by the clock, in any air"


@dataclass(frozen=True)
class SlowerBelow:
    """Full pace from `edge` [C] up, `pace` of it below."""

    edge: float
    pace: float

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.where(temperature < self.edge, self.pace, 1.0)

    def words(self) -> str:
        return f"by the clock from {self.edge:g} C up, {self.pace:g} of that pace below"
