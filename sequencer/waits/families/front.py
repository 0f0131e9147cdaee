"""Moisture cure: a front that eats into the bead as vapour comes through the skin."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.moist import Floats, vapour_pressure
from sequencer.waits.families.family import power


@dataclass(frozen=True)
class MoistureFront:
    """(RH es(T))^exponent: the vapour pressure [kPa] outside the bead. Dry air cures nothing."""

    exponent: float

    humidity_counts = True
    still_words = "too dry"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.power(vapour_pressure(temperature, np.clip(humidity, 0.0, 1.0)), self.exponent)

    def words(self) -> str:
        return f"moisture front, {power('RH es(T)', self.exponent)}"
