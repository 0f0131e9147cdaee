"""Resins: a fixed factor for every ten degrees."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.moist import Floats

SPAN = 10.0
"""The degrees [K] the factor belongs to, by its definition."""


@dataclass(frozen=True)
class TenDegrees:
    """`factor` times as fast for every ten degrees warmer."""

    factor: float

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.power(self.factor, temperature / SPAN)

    def words(self) -> str:
        return f"{self.factor:g} times as fast for every 10 C"
