"""Short words for lengths of time and for air, as a wait's working says them."""

from __future__ import annotations

from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.wait import Limit

_MINUTES_UNDER = 2 * HOUR
_BOTH_UNDER = 10 * HOUR
_HOURS_UNDER = 5 * DAY


def length(minutes: float) -> str:
    """A length of time [min] in words, to the nearest: `45 min`, `4 h 20 min`, `57 h`, `6.3 d`."""
    whole = _nearest(minutes)
    if whole < _MINUTES_UNDER and whole % HOUR:
        return f"{whole} min"
    if whole < _BOTH_UNDER and whole % HOUR:
        return f"{whole // HOUR} h {whole % HOUR} min"
    if whole < _HOURS_UNDER:
        return f"{_nearest(whole / HOUR)} h"
    return f"{_nearest(10 * whole / DAY) / 10:g} d"


def air_words(temperature: float, humidity: float | None) -> str:
    """`17 C 65 %`, or without humidity (None) `17 C`. Temperature [C], humidity [0..1]."""
    warmth = f"{round(temperature, 1):g} C"
    return warmth if humidity is None else f"{warmth} {round(100 * humidity)} %"


def limit_words(limit: Limit) -> str:
    """10 to 32 C, at most 85 %, surface 3 C above dew point"""
    said = [
        _between(limit.coldest, limit.hottest, 1, "C"),
        _between(limit.driest, limit.dampest, 100, "%"),
    ]
    if limit.above_dew_point is not None:
        said.append(f"surface {round(limit.above_dew_point, 1):g} C above dew point")
    if limit.wood_driest is not None or limit.wood_dampest is not None:
        said.append(f"wood {_between(limit.wood_driest, limit.wood_dampest, 100, '%')}")
    return ", ".join(filter(None, said))


def _between(low: float | None, high: float | None, times: int, unit: str) -> str:
    low_words, high_words = ("" if end is None else f"{round(times * end, 1):g}" for end in (low, high))
    if low is not None and high is not None:
        return f"{low_words} to {high_words} {unit}"
    if low is not None:
        return f"at least {low_words} {unit}"
    return "" if high is None else f"at most {high_words} {unit}"


def broken_words(limit: Limit) -> str:
    """What air is that breaks a limit: `too cold`, `too damp`, `too cold or too damp`."""
    words = (
        (limit.coldest, "too cold"),
        (limit.hottest, "too warm"),
        (limit.driest, "too dry"),
        (limit.dampest, "too damp"),
        (limit.above_dew_point, "too near the dew point"),
        (limit.wood_driest, "too dry for wood"),
        (limit.wood_dampest, "too damp for wood"),
    )
    return " or ".join(word for bound, word in words if bound is not None)


def _nearest(figure: float) -> int:
    return int(round(figure, 6) + 0.5)
