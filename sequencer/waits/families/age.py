"""Equivalent age: cement goes on by temperature alone. Arrhenius, and three other readings of the same idea."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.air.moist import KELVIN, Floats

GAS_CONSTANT = 8.314462618e-3
"""[kJ/(mol K)], exact since the SI of 2019."""


@dataclass(frozen=True)
class Arrhenius:
    """exp(-energy / R T): `energy` [kJ/mol]; nothing below `still_below` [C]."""

    energy: float
    still_below: float = -np.inf

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        pace = np.exp(-self.energy / (GAS_CONSTANT * (temperature + KELVIN)))
        return np.where(temperature < self.still_below, 0.0, pace)

    def words(self) -> str:
        return f"equivalent age, Arrhenius, {self.energy:g} kJ/mol, no progress below {self.still_below:g} C"


@dataclass(frozen=True)
class NurseSaul:
    """Degree-hours above a datum [C]; nothing below it."""

    datum: float

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.maximum(temperature - self.datum, 0.0)

    def words(self) -> str:
        return f"maturity, Nurse-Saul, datum {self.datum:g} C"


@dataclass(frozen=True)
class TwoBranch:
    """Arrhenius with an energy [kJ/mol] that grows by `slope` [kJ/(mol K)] for each degree below `knee` [C].

    Freiesleben Hansen and Pedersen 1977. The drive is relative to the knee, where both branches meet.
    """

    energy: float
    slope: float
    knee: float

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        energy = self.energy + self.slope * np.maximum(self.knee - temperature, 0.0)
        return np.exp(-energy / GAS_CONSTANT * (1.0 / (temperature + KELVIN) - 1.0 / (self.knee + KELVIN)))

    def words(self) -> str:
        return (
            f"equivalent age, two branches, {self.energy:g} kJ/mol from {self.knee:g} C up, "
            f"{self.slope:g} more for each degree below"
        )


@dataclass(frozen=True)
class ModelCode:
    """exp(constant - kelvins / (zero + T)) as EN 1992-1-1 (B.10) and fib Model Code 2010 print it: nearly 1 at 20 C."""

    constant: float
    kelvins: float
    zero: float

    humidity_counts = False
    still_words = "too cold"

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        return np.exp(self.constant - self.kelvins / (self.zero + temperature))

    def words(self) -> str:
        return f"equivalent age, exp({self.constant:g} - {self.kelvins:g} / ({self.zero:g} + T))"
