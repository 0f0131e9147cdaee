"""The share of its 28-day strength that cement has at an age in its reference air.

beta_cc = exp(s (1 - sqrt(28 d / t))), EN 1992-1-1 3.1.2 (6), at 20 C; s for cements of class R, N and S (seen).
"""

from __future__ import annotations

from math import exp, inf, log, sqrt

FULL_AGE = 28.0 * 24.0
"""The age whose strength counts as whole [h]."""

STRENGTH_TEMPERATURE = 20.0
"""The temperature its ages are counted at [C]."""

SLOWNESS: dict[str, float] = {"rapid cement": 0.20, "cement": 0.25, "slow cement": 0.38}
"""s of the laws whose strength is known; classes R, N and S of EN 1992-1-1 3.1.2 (6)."""


def strength_at(law: str, hours: float) -> float:
    """The share of the 28-day strength after so many hours [h] at 20 C. KeyError for a law without strength."""
    return exp(SLOWNESS[law] * (1.0 - sqrt(FULL_AGE / hours))) if hours > 0.0 else 0.0


def hours_to_strength(law: str, share: float) -> float:
    """The hours at 20 C [h] until a share of the 28-day strength; infinite for what is never reached."""
    root = 1.0 - log(share) / SLOWNESS[law]
    return FULL_AGE / root**2 if root > 0.0 else inf
