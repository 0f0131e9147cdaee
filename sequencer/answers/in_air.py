"""A recipe in a given air from a given moment: its steps one after the other, and when each layer is ready."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from sequencer.air.hourly import RoomAir, air_on, hourly_air
from sequencer.answers.in_time import Missed, missed
from sequencer.files.check_recipe import followed
from sequencer.network.hours import Openings, WorkClock
from sequencer.terms.air import AirSaid
from sequencer.terms.minute import DAY, HOUR, Minute, Span
from sequencer.terms.recipe import Recipe, RecipeStep
from sequencer.terms.strength import SLOWNESS, STRENGTH_TEMPERATURE, strength_at
from sequencer.terms.wait import Limit, Wait
from sequencer.waits.clock import WaitClock, wait_clock
from sequencer.waits.limits import touches
from sequencer.waits.progress import NEVER
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

LONGEST = 2 * 365 * DAY
"""How far the air is laid out [min]: as long as the longest wait a recipe may have."""

BEFORE = 7 * DAY
"""How far it is laid out before [min]: what must have been so before a step is asked of it."""

AREA = 5.0
"""The area work by the square metre is counted for where none is said [m2]: an assumption, no source."""


@dataclass(frozen=True)
class WaitInAir:
    """A wait from an end of work on. `ready` None: never. `hours`, `quick`, `slow` [h]: middle and nine in ten.

    `latest`: the last start of the next step, None if it does not matter; `missed`: why nobody can keep it.
    `known`: the air its law is known to hold in. `working`, `law_source`: sentences. `strength` [0..1]: the share of
    the 28-day strength its law has then brought it to, None for laws without one.
    """

    step: RecipeStep
    wait: Wait
    clock: WaitClock
    end: Minute
    ready: Minute | None
    latest: Minute | None
    missed: Missed | None
    hours: float
    quick: float
    slow: float
    working: str
    known: str
    law_source: str
    strength: float | None


@dataclass(frozen=True)
class StepInAir:
    """A step with its work, its limits with whether the air breaks them while it is done, and its waits.

    `start` None: nobody can begin it, since what it follows is never ready; its waits are not told then.
    `too_late`: when it should have begun at the latest, None if it begins in time.
    """

    step: RecipeStep
    start: Minute | None
    end: Minute | None
    limits: tuple[tuple[Limit, bool], ...] = ()
    waits: tuple[WaitInAir, ...] = ()
    too_late: Minute | None = None


def in_air(
    recipe: Recipe, said: AirSaid, from_: Minute, openings: Openings, area: float = AREA
) -> tuple[StepInAir, ...]:
    """Every step of a recipe: the work of the first ends at `from_`, the others follow in working hours.

    Each when the steps it follows are ready for it and the one above it is done; `area` [m2] of work.
    """
    walk = _Walk(recipe, hourly_air(said, from_ - BEFORE, from_ + LONGEST), openings, area)
    return tuple(walk.step(number, from_) for number in range(len(recipe.steps)))


@dataclass
class _Walk:
    recipe: Recipe
    air: RoomAir
    openings: Openings
    area: float
    done: dict[str, StepInAir] = field(default_factory=dict)

    def step(self, number: int, from_: Minute) -> StepInAir:
        step, minutes = self.recipe.steps[number], self.recipe.steps[number].hours.minutes(self.area)
        pieces = self._work(step, self._soonest(number)) if number else ((from_ - minutes, from_),)
        if not pieces:
            told = StepInAir(step, None, None)
        else:
            air = air_on(self.air, step.surfaces)
            limits = tuple((limit, _broken(limit, air, pieces)) for limit in step.air)
            waits = tuple(self._wait(step, wait, air, pieces[-1][1], not number) for wait in step.waits)
            late = min((latest for latest in self._latest(number) if latest < pieces[0][0]), default=None)
            told = StepInAir(step, pieces[0][0], pieces[-1][1], limits, waits, late)
        self.done[step.name] = told
        return told

    def _soonest(self, number: int) -> Minute | None:
        """When all that a step follows is ready for it and the step above it is done; None: never."""
        moments = [*self._let_go(number), self.done[self.recipe.steps[number - 1].name].end]
        return None if None in moments else max(moment for moment in moments if moment is not None)

    def _let_go(self, number: int) -> Iterator[Minute | None]:
        for name, purpose, _ in followed(self.recipe, number):
            giver = self.done.get(name)
            if giver is not None:
                ready = [one.ready for one in giver.waits if one.wait.purpose == purpose]
                yield ready[0] if ready else giver.end

    def _latest(self, number: int) -> Iterator[Minute]:
        """The last starts that the layers a step hears leave it."""
        for name, purpose, _ in followed(self.recipe, number):
            waits = self.done[name].waits if name in self.done else ()
            yield from (one.latest for one in waits if one.wait.purpose == purpose and one.latest is not None)

    def _work(self, step: RecipeStep, soonest: Minute | None) -> tuple[Span, ...]:
        clock = self._clock(step)
        start = None if soonest is None else clock.next_start(soonest)
        return () if start is None else clock.pieces(start)

    def _wait(self, step: RecipeStep, wait: Wait, air: RoomAir, end: Minute, first: bool) -> WaitInAir:
        clock, law = wait_clock(wait, air), LAWS[wait.law]
        ends = np.array([end], np.int64)
        ready = clock.ready(ends)
        latest = clock.latest(ends, ready)
        low, high = law.range if (wait.low, wait.high) == (1.0, 1.0) else (wait.low, wait.high)
        hours, floor, feels = clock.hours(end), clock.floor / HOUR, law.family.humidity_counts
        known = f"{law.warm[0]:g} to {law.warm[1]:g} C" + f", {_per(law.damp[0])} to {_per(law.damp[1])} %" * feels
        never = int(ready[0]) >= NEVER
        return WaitInAir(
            step=step,
            wait=wait,
            clock=clock,
            end=end,
            ready=None if never else int(ready[0]),
            latest=None if never or latest is None else int(latest[0]),
            missed=None if never else missed(clock, self._clock(step), end, self._following(step, wait), first),
            hours=hours,
            quick=max(hours * low, floor),
            slow=max(hours * high, floor),
            working=clock.working(end),
            known=known,
            law_source=law.source,
            strength=None if never else _strength(wait),
        )

    def _following(self, step: RecipeStep, wait: Wait) -> list[WorkClock]:
        """The hours of the steps that hear a wait; where none of this recipe does, of anything that is done at once."""
        heard = (step.name, wait.purpose)
        hear = [
            self._clock(other)
            for number, other in enumerate(self.recipe.steps)
            if heard in [(name, purpose) for name, purpose, _ in followed(self.recipe, number)]
        ]
        return hear or [WorkClock(self.openings, 1)]

    def _clock(self, step: RecipeStep) -> WorkClock:
        return WorkClock(self.openings, step.hours.minutes(self.area), step.one_go)


def _strength(wait: Wait) -> float | None:
    """The share of its 28-day strength that a layer has when the hours of its wait are over."""
    if wait.then or wait.law not in SLOWNESS or not wait.hours:
        return None
    law = LAWS[wait.law]
    warm = law.temperature if wait.at_temperature is None else wait.at_temperature
    return strength_at(wait.law, wait.hours * rate(wait.law, warm, law.humidity, STRENGTH_TEMPERATURE))


def _broken(limit: Limit, air: RoomAir, pieces: tuple[Span, ...]) -> bool:
    before = ((pieces[0][0] - round(limit.hours_before * HOUR), pieces[0][0]),) if limit.kind == "before" else ()
    spans = np.array([*before, *pieces], np.int64)
    return bool(touches(limit, air, spans[:, 0], spans[:, 1]).any())


def _per(share: float) -> str:
    return f"{100 * share:g}"
