"""Drying: by what the air can still take up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.moist import Floats, saturation_pressure
from sequencer.waits.families.family import power


@dataclass(frozen=True)
class VapourDeficit:
    """es(T)^warmth * (1 - humidity)^dryness, es the saturation pressure [kPa]. Saturated air dries nothing."""

    warmth: float
    dryness: float

    humidity_counts = True
    still_words = "too damp"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        dry = np.clip(1.0 - humidity, 0.0, 1.0)
        return np.power(saturation_pressure(temperature), self.warmth) * np.power(dry, self.dryness)

    def words(self) -> str:
        return f"drying by the vapour-pressure deficit, {power('es(T)', self.warmth)} {power('(1 - RH)', self.dryness)}"
