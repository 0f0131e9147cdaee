"""Counted costs of the goals between hand-over and "everything as early as it can be": whole numbers to keep small."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeAlias

from sequencer.network.hours import Openings
from sequencer.terms.minute import Minute, Span

if TYPE_CHECKING:
    from sequencer.network.model import MinuteFunction

Naming: TypeAlias = Callable[[str], str]


@dataclass(frozen=True)
class Moved:
    """1 if any of these tasks starts at another moment than the one beside it."""

    starts: tuple[tuple[str, Minute], ...]

    def named(self, name: Naming) -> Moved:
        """The same on tasks of other names."""
        return replace(self, starts=tuple((name(task), at) for task, at in self.starts))


@dataclass(frozen=True)
class Reached:
    """The number of the half-day in which the last of these tasks is ready; None: ready at its end of work."""

    ready: tuple[tuple[str, MinuteFunction | None], ...]
    half_days: tuple[Minute, ...]

    def named(self, name: Naming) -> Reached:
        """The same on tasks of other names."""
        return replace(self, ready=tuple((name(task), ready) for task, ready in self.ready))


@dataclass(frozen=True)
class Runs:
    """How many runs of a trade's own working days these tasks take; `hours`: that trade's.

    `behind`: what the trade has done already, from its start to its end; a run may go on from there.
    """

    tasks: tuple[str, ...]
    hours: Openings
    behind: tuple[Span, ...] = ()

    def named(self, name: Naming) -> Runs:
        """The same on tasks of other names."""
        return replace(self, tasks=tuple(map(name, self.tasks)))


Counted: TypeAlias = Moved | Reached | Runs


@dataclass(frozen=True)
class CountedGoal:
    """A goal of this name: the sum of its costs, to be kept small."""

    name: str
    costs: tuple[Counted, ...]
