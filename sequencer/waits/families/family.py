"""What every family of laws is."""

from __future__ import annotations

from typing import Protocol

from sequencer.air.moist import Floats


class Family(Protocol):
    """One shape of law with its constants."""

    @property
    def humidity_counts(self) -> bool:
        """True if the air's humidity changes the pace."""

    @property
    def still_words(self) -> str:
        """What air is in which the layer makes no progress at all."""

    def drive(self, temperature: Floats, humidity: Floats) -> Floats:
        """How fast the layer goes in air of temperature [C] and humidity [0..1], in its own unit; never < 0."""

    def words(self) -> str:
        """The law with its constants, as one line."""


def power(base: str, exponent: float) -> str:
    """`x^0.9`, or just `x` to the first."""
    return base if exponent == 1.0 else f"{base}^{exponent:g}"
