"""The network: tasks with possible times, and the seven primitives a rule may emit.

Every function takes and gives int64 arrays of Minutes [min since 1970 UTC], element by element, and never falls when
its argument rises. Nothing here knows the solver or its grid.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace
from functools import cached_property, partial
from typing import Any, TypeAlias, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

from sequencer.network.counted import CountedGoal
from sequencer.network.hours import WorkClock
from sequencer.terms.cause import Cause
from sequencer.terms.minute import Minute
from sequencer.terms.place import Place

Minutes: TypeAlias = NDArray[np.int64]
Mask: TypeAlias = NDArray[np.bool_]
MinuteFunction: TypeAlias = Callable[[Minutes], Minutes]
StartTest: TypeAlias = Callable[[Minutes, Minutes], Mask]

HAND_OVER = "hand over"
"""The id of the last task of every job."""


@dataclass(frozen=True)
class Why:
    """Where a rule comes from. `kind`: material, people, hours, inspection, delivery, house.

    `cause`: what of the files could be taken away so that the rule is gone; None if nothing can.
    """

    kind: str
    text: str
    where: Place | None = None
    step: str | None = None
    cause: Cause | None = None


@dataclass(frozen=True)
class Task:
    """One step to be given a start; `work` turns starts into ends."""

    id: str
    work: WorkClock


@dataclass(frozen=True)
class AllowedStarts:
    """Starts of a task that a rule allows: `allowed(starts, ends)` is True where it does.

    `booking`: the step whose firm visit this is. `without`: what is allowed when firm visits of some steps are given
    up, where that makes a difference.
    """

    task: str
    allowed: StartTest
    why: Why
    booking: str | None = None
    without: Callable[[Collection[str]], StartTest] | None = None


@dataclass(frozen=True)
class Order:
    """`after` starts no earlier than `before` ends."""

    before: str
    after: str
    why: Why


@dataclass(frozen=True)
class WaitFor:
    """`after` starts no earlier than `ready(end of before)`."""

    before: str
    after: str
    ready: MinuteFunction
    why: Why


@dataclass(frozen=True)
class Window:
    """`after` starts no later than `latest(end of before)`."""

    before: str
    after: str
    latest: MinuteFunction
    why: Why


@dataclass(frozen=True)
class Claim:
    """A stretch from the start of `task` to the end of `last` (itself by default), or to `until(that end)`."""

    task: str
    until: MinuteFunction | None = None
    last: str | None = None
    amount: int = 1

    @property
    def closes_with(self) -> str:
        """The task whose end closes the claim."""
        return self.last or self.task


@dataclass(frozen=True)
class OneAtATime:
    """No two of these claims overlap."""

    claims: tuple[Claim, ...]
    why: Why


@dataclass(frozen=True)
class AtMost:
    """At no moment do the claims on something exceed `n`."""

    n: int
    claims: tuple[Claim, ...]
    why: Why


@dataclass(frozen=True)
class CountedCost:
    """A cost to keep small: `weight` for every unit by which the start of `task` moves later [min]."""

    task: str
    weight: int


R = TypeVar("R")
Rule: TypeAlias = AllowedStarts | Order | WaitFor | Window | OneAtATime | AtMost | CountedCost


@dataclass(frozen=True)
class End:
    """The hand-over of one of several jobs: its task, its half-days, and the first minute after the day promised.

    `half_days`: every midnight and every noon of the place, a midnight first.
    """

    task: str
    half_days: tuple[Minute, ...]
    promise: Minute | None = None

    def half_day(self, moments: Minutes) -> Minutes:
        """The number of the half-day each moment lies in."""
        return np.searchsorted(np.array(self.half_days, dtype=np.int64), moments, side="right").astype(np.int64)

    def days_late(self, moments: Minutes) -> Minutes:
        """How many days past the day promised each moment lies: 1 until midnight of the day after it."""
        midnights = [at for at in self.half_days[::2] if self.promise is not None and at >= self.promise]
        return np.searchsorted(np.array(midnights, dtype=np.int64), moments, side="left").astype(np.int64)


@dataclass(frozen=True)
class Network:
    """All tasks and rules of a job, from `start` to `horizon`; hand-over is counted in `half_days`.

    `ends`: the hand-overs of several jobs, none where the network is that of one. `goals`: what decides, in this order,
    among plans that hand over in the same half-day. `visits_stand`: no firm visit may be given up.
    `known`: what others have worked out of it, and of networks nearly the same, by what they worked it out with.
    """

    tasks: dict[str, Task]
    rules: tuple[Rule, ...]
    half_days: tuple[Minute, ...]
    start: Minute
    horizon: Minute
    ends: tuple[End, ...] = ()
    goals: tuple[CountedGoal, ...] = ()
    visits_stand: bool = False
    known: dict[Callable[..., Any], Any] = field(default_factory=dict, repr=False, compare=False)

    def of(self, kind: type[R]) -> list[R]:
        """The rules of one primitive."""
        return cast(list[R], self._by_kind.get(kind, []))

    def without_bookings(self, steps: tuple[str, ...]) -> Network:
        """The same network with the firm visits of these steps given up."""
        kept = (rule for rule in self.rules if not (isinstance(rule, AllowedStarts) and rule.booking in steps))
        return replace(self, rules=tuple(_given_up(rule, steps) for rule in kept))

    def without_windows(self, steps: Collection[str]) -> Network:
        """The same network without the windows of these steps' layers."""
        kept = (rule for rule in self.rules if not (isinstance(rule, Window) and rule.before in steps))
        return replace(self, rules=tuple(kept))

    @cached_property
    def _by_kind(self) -> dict[type, list[Rule]]:
        found: dict[type, list[Rule]] = {}
        for rule in self.rules:
            found.setdefault(type(rule), []).append(rule)
        return found


def _given_up(rule: Rule, steps: Collection[str]) -> Rule:
    """A rule as it is when the firm visits of some steps are given up, and perhaps others later on."""
    if not isinstance(rule, AllowedStarts) or rule.without is None:
        return rule
    return replace(rule, allowed=rule.without(steps), without=partial(_with_these_too, rule.without, tuple(steps)))


def _with_these_too(
    without: Callable[[Collection[str]], StartTest], gone: tuple[str, ...], more: Collection[str]
) -> StartTest:
    """What is allowed when more firm visits are given up beside those that are gone."""
    return without((*gone, *more))
