"""A network laid on the grid: whole slots, arrays by place among a task's starts; no calendar, no air, no words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from sequencer.solve.goals import SlotGoal
from sequencer.solve.lists import Lists
from sequencer.terms.minute import Minute

Slots: TypeAlias = NDArray[np.int64]


@dataclass(frozen=True)
class Arc:
    """`after` starts at or after `release[k]` when `before` takes its k-th start (slots)."""

    before: int
    after: int
    release: Slots


@dataclass(frozen=True)
class Latest:
    """`after` starts at or before `latest[k]` when `before` takes its k-th start (slots)."""

    before: int
    after: int
    latest: Slots


@dataclass(frozen=True)
class SlotClaim:
    """From the start of `task` until `until[k]` when `last` takes its k-th start (slots).

    `begin[k]`: where it begins instead when `task` takes its k-th start.
    """

    task: int
    last: int
    until: Slots
    amount: int = 1
    begin: Slots | None = None


@dataclass(frozen=True)
class Group:
    """Claims that together never exceed `n`."""

    n: int
    claims: tuple[SlotClaim, ...]


@dataclass(frozen=True)
class EndOfJob:
    """The hand-over of one of several jobs: its task; the half-day, and the days late, of its k-th start."""

    task: int
    half_day: Slots
    days_late: Slots


@dataclass(frozen=True)
class Problem:
    """Tasks by number. `starts[i]`: allowed starts, rising (slots). `half_day[k]`: that of hand-over's k-th start.

    `slot` [min] is the width of the grid, `base` the minute of slot 0. `booked` maps tasks to their firm start (slots).
    `ends`: the hand-overs of several jobs. `goals`: what decides between hand-over and the weighted starts.
    Arrays that are alike are the same array; `lists` has them as lists.
    """

    ids: tuple[str, ...]
    slot: int
    base: Minute
    starts: tuple[Slots, ...]
    arcs: tuple[Arc, ...]
    latests: tuple[Latest, ...]
    groups: tuple[Group, ...]
    weights: tuple[int, ...]
    hand_over: int
    half_day: Slots
    booked: dict[int, int] = field(default_factory=dict)
    ends: tuple[EndOfJob, ...] = ()
    goals: tuple[SlotGoal, ...] = ()
    lists: Lists = field(default_factory=Lists, repr=False, compare=False)

    def minute(self, slot: int) -> Minute:
        """The minute of a slot."""
        return self.base + self.slot * slot

    def slots(self, places: Sequence[int]) -> list[int]:
        """The start of every task of a plan (slots)."""
        return [int(starts[place]) for starts, place in zip(self.starts, places, strict=True)]

    def half_day_of(self, places: Sequence[int]) -> int:
        """The half-day in which a plan hands over."""
        return int(self.half_day[places[self.hand_over]])

    def last_place(self, half_day: int) -> int:
        """The place of the last start of hand-over that lies in a half-day or before; -1 if none does."""
        return int(self.half_day.searchsorted(half_day, side="right")) - 1
