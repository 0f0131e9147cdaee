"""Air and waits made by hand for the tests of the waits."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sequencer.air.hourly import RoomAir
from sequencer.air.layers import HOW
from sequencer.terms.minute import HOUR
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.clock import WaitClock, wait_clock

HERE = Place("recipe.yaml", 3, 5)
START = HOUR * 500_000


def air_of(temperature: Sequence[float], humidity: Sequence[float] | float = 0.5, how: str = "stated") -> RoomAir:
    """A room's air from START on, an hour a figure. Temperature [C], humidity [0..1]."""
    degrees = np.array(temperature, np.float64)
    codes = np.full(len(degrees), HOW.index(how), np.int8)
    return RoomAir(START, degrees, np.broadcast_to(np.asarray(humidity, np.float64), degrees.shape), codes, codes)


def steady(temperature: float, humidity: float = 0.5, hours: int = 24, how: str = "stated") -> RoomAir:
    """The same air throughout; after its hours it goes on."""
    return air_of([temperature] * hours, humidity, how)


def fahrenheit(degrees: float) -> float:
    """[C]."""
    return (degrees - 32.0) / 1.8


def wait(
    law: str,
    hours: float,
    *limits: Limit,
    at: float | None = None,
    damp: float | None = None,
    deep: float | None = None,
    floor: float | None = None,
    within: int | None = None,
    of_ready: bool = False,
) -> Wait:
    """A wait of a law: hours at a temperature [C] and humidity [0..1], so deep [mm], never under a floor [h]."""
    return Wait("next", law, hours, HERE, "c", at, damp, floor, within, of_ready, thickness=deep, limits=limits)


def clock(law: str, hours: float, air: RoomAir, *limits: Limit, **said: float | None) -> WaitClock:
    """The clock of such a wait in this air."""
    return wait_clock(wait(law, hours, *limits, **said), air)  # type: ignore[arg-type]


def hours(law: str, reference_hours: float, air: RoomAir, **said: float | None) -> float:
    """How long such a wait takes from the first minute of the air [h]."""
    return clock(law, reference_hours, air, **said).hours(START)


def minutes(*since_start: int) -> NDArray[np.int64]:
    """Minutes counted from START, as the clocks take them."""
    return START + np.array(since_start, np.int64)
