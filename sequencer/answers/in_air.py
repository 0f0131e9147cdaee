"""A recipe in a given air from a given moment: when each layer is ready, and how far along it is by then."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from sequencer.air.hourly import RoomAir, air_on, hourly_air
from sequencer.terms.air import AirSaid
from sequencer.terms.minute import DAY, HOUR, Minute
from sequencer.terms.recipe import Recipe, RecipeStep
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.limits import broken_hours
from sequencer.waits.progress import NEVER
from sequencer.waits.table import LAWS
from sequencer.waits.words import air_words

LONGEST = 2 * 365 * DAY
"""How far the air is laid out [min]: as long as the longest wait a recipe may have."""
APART = 5.0
"""How much colder and warmer the rooms beside this one are [C]."""
TEMPERATURES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
HUMIDITIES = (0.3, 0.5, 0.7, 0.85)


@dataclass(frozen=True)
class WaitInAir:
    """A wait from an end of work on. `ready` None: never. `hours`, `quick`, `slow` [h]: middle and nine in ten.

    `known`: the air its law is known to hold in. `working`, `law_source`: sentences.
    """

    step: RecipeStep
    wait: Wait
    clock: WaitClock
    start: Minute
    ready: Minute | None
    hours: float
    quick: float
    slow: float
    working: str
    known: str
    law_source: str


@dataclass(frozen=True)
class StepInAir:
    """A step, its limits with whether the air breaks them when its work ends, and its waits."""

    step: RecipeStep
    limits: tuple[tuple[Limit, bool], ...]
    waits: tuple[WaitInAir, ...]


@dataclass(frozen=True)
class Curve:
    """How much of a wait is over [0..1] in three rooms, at the same moments after the end of work [h]."""

    names: tuple[str, ...]
    hours: tuple[float, ...]
    shares: tuple[tuple[float, ...], ...]


def in_air(recipe: Recipe, said: AirSaid, start: Minute) -> tuple[StepInAir, ...]:
    """Every step of a recipe as if its work ended at `start` in this air."""
    air = hourly_air(said, start - DAY, start + LONGEST)
    return tuple(_step(step, air_on(air, step.surfaces), start) for step in recipe.steps)


def table(wait: Wait) -> tuple[tuple[float | None, ...], ...]:
    """Hours of a wait [h] in steady air: a row for each of HUMIDITIES (one, where humidity does not count).

    A column for each of TEMPERATURES; None: never. Stages and floors count.
    """
    felt = any(LAWS[stage.law].family.humidity_counts for stage in (wait, *wait.then))
    rows = HUMIDITIES if felt else HUMIDITIES[1:2]
    return tuple(tuple(_steady(wait, warm, damp) for warm in TEMPERATURES) for damp in rows)


def curve(one: WaitInAir, rows: int) -> Curve:
    """Progress at so many moments until the slowest room that gets there is ready; at equal humidity."""
    degrees = (-APART, 0.0, APART)
    clocks = [_colder(one, off) for off in degrees]
    lengths = [length for clock in clocks if (length := clock.hours(one.start)) < NEVER / HOUR]
    last = max(lengths, default=one.wait.hours)
    hours = tuple(last * row / (rows - 1) for row in range(rows))
    moments = [one.start + round(at * HOUR) for at in hours]
    shares = tuple(tuple(clock.share(one.start, moment) for clock in clocks) for moment in moments)
    return Curve(tuple(_name(one, off) for off in degrees), hours, shares)


def _step(step: RecipeStep, air: RoomAir, start: Minute) -> StepInAir:
    hour = air.between(start - 1, start)
    limits = tuple((limit, bool(broken_hours(limit, hour)[0])) for limit in step.air)
    return StepInAir(step, limits, tuple(_wait(step, wait, air, start) for wait in step.waits))


def _wait(step: RecipeStep, wait: Wait, air: RoomAir, start: Minute) -> WaitInAir:
    clock, law = wait_clock(wait, air), LAWS[wait.law]
    hours = clock.hours(start)
    low, high = law.range if (wait.low, wait.high) == (1.0, 1.0) else (wait.low, wait.high)
    floor = clock.floor / HOUR
    feels = law.family.humidity_counts
    known = f"{law.warm[0]:g} to {law.warm[1]:g} C" + f", {_percent(law.damp[0])} to {_percent(law.damp[1])} %" * feels
    return WaitInAir(
        step=step,
        wait=wait,
        clock=clock,
        start=start,
        ready=None if hours == float("inf") else start + round(hours * HOUR),
        hours=hours,
        quick=max(hours * low, floor),
        slow=max(hours * high, floor),
        working=clock.working(start),
        known=known,
        law_source=law.source,
    )


def _percent(share: float) -> str:
    return f"{100 * share:g}"


def _steady(wait: Wait, warm: float, damp: float) -> float | None:
    still = np.zeros(1, np.int8)
    hours = wait_clock(wait, RoomAir(0, np.array([warm]), np.array([damp]), still, still)).hours(0)
    return None if hours == float("inf") else hours


def _colder(one: WaitInAir, off: float) -> WaitClock:
    air = one.clock.air
    surface = None if air.surface is None else air.surface + off
    return wait_clock(one.wait, replace(air, temperature=air.temperature + off, surface=surface))


def _name(one: WaitInAir, off: float) -> str:
    here = one.clock.air.at(one.start)
    return air_words(here.surface + off, here.humidity)
