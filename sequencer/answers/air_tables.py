"""A wait over steady airs, and its progress in three rooms."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from sequencer.air.hourly import RoomAir
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Wait
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.progress import NEVER
from sequencer.waits.table import LAWS
from sequencer.waits.words import air_words

APART = 5.0
"""How much colder and warmer the rooms beside this one are [C]."""
TEMPERATURES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
HUMIDITIES = (0.3, 0.5, 0.7, 0.85)


@dataclass(frozen=True)
class Curve:
    """How much of a wait is over [0..1] in three rooms, at the same moments after the end of work [h]."""

    names: tuple[str, ...]
    hours: tuple[float, ...]
    shares: tuple[tuple[float, ...], ...]


def table(wait: Wait) -> tuple[tuple[float | None, ...], ...]:
    """Hours of a wait [h] in steady air: a row for each of HUMIDITIES (one, where humidity does not count).

    A column for each of TEMPERATURES; None: never. Stages and floors count.
    """
    felt = any(LAWS[stage.law].family.humidity_counts for stage in (wait, *wait.then))
    rows = HUMIDITIES if felt else HUMIDITIES[1:2]
    return tuple(tuple(_steady(wait, warm, damp) for warm in TEMPERATURES) for damp in rows)


def curve(clock: WaitClock, end: Minute, rows: int) -> Curve:
    """Progress at so many moments until the slowest room that gets there is ready; at equal humidity."""
    degrees = (-APART, 0.0, APART)
    clocks = [_colder(clock, off) for off in degrees]
    lengths = [length for other in clocks if (length := other.hours(end)) < NEVER / HOUR]
    last = max(lengths, default=clock.wait.hours)
    hours = tuple(last * row / (rows - 1) for row in range(rows))
    moments = [end + round(at * HOUR) for at in hours]
    shares = tuple(tuple(other.share(end, moment) for other in clocks) for moment in moments)
    return Curve(tuple(_name(clock, end, off) for off in degrees), hours, shares)


def _steady(wait: Wait, warm: float, damp: float) -> float | None:
    still = np.zeros(1, np.int8)
    hours = wait_clock(wait, RoomAir(0, np.array([warm]), np.array([damp]), still, still)).hours(0)
    return None if hours == float("inf") else hours


def _colder(clock: WaitClock, off: float) -> WaitClock:
    air = clock.air
    surface = None if air.surface is None else air.surface + off
    return wait_clock(clock.wait, replace(air, temperature=air.temperature + off, surface=surface))


def _name(clock: WaitClock, end: Minute, off: float) -> str:
    here = clock.air.at(end)
    return air_words(here.surface + off, here.humidity)
