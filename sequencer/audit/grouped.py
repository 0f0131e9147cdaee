"""The steps of a job, grouped once by everything the checks ask for."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from functools import cached_property
from typing import TypeVar

from sequencer.terms.job import Job, Step
from sequencer.terms.minute import Minute
from sequencer.terms.recipe import Given

T = TypeVar("T")
K = TypeVar("K", bound=Hashable)


class Grouped:
    """The steps of a job by room, trade, recipe and state, each group in the order of the files."""

    def __init__(self, job: Job) -> None:
        self.job = job

    def in_room(self, room: str) -> list[Step]:
        """The steps of a room."""
        return self._rooms.get(room, [])

    def of_trade(self, trade: str) -> list[Step]:
        """The steps of a trade."""
        return self._trades.get(trade, [])

    def firm_visits(self, trade: str) -> list[Minute]:
        """The moments for which firm visits of a trade stand."""
        return self._firm.get(trade, [])

    def family(self, step: Step) -> list[Step]:
        """The steps of the same recipe in the same place."""
        return self._families[_recipe_there(step)]

    def givers(self, room: str, state: str) -> list[tuple[Step, Given]]:
        """The steps of a room that give a state, each with how it does."""
        return self._givers.get((room, state), [])

    def takers(self, room: str, state: str) -> list[Step]:
        """The steps of a room that take a state back."""
        return self._takers.get((room, state), [])

    @cached_property
    def _rooms(self) -> dict[str, list[Step]]:
        return _by(self.job.steps, lambda step: step.room)

    @cached_property
    def _trades(self) -> dict[str, list[Step]]:
        return _by(self.job.steps, lambda step: step.trade)

    @cached_property
    def _firm(self) -> dict[str, list[Minute]]:
        visits = _by(self.job.bookings, lambda booking: booking.trade)
        return {trade: [booking.at for booking in bookings] for trade, bookings in visits.items()}

    @cached_property
    def _families(self) -> dict[str, list[Step]]:
        return _by(self.job.steps, _recipe_there)

    @cached_property
    def _givers(self) -> dict[tuple[str, str], list[tuple[Step, Given]]]:
        given = ((step, given) for step in self.job.steps for given in step.gives)
        return _by(given, lambda pair: (pair[0].room, pair[1].state))

    @cached_property
    def _takers(self) -> dict[tuple[str, str], list[Step]]:
        found: dict[tuple[str, str], list[Step]] = {}
        for step in self.job.steps:
            for state in dict.fromkeys(back.word for back in step.takes_back):
                found.setdefault((step.room, state), []).append(step)
        return found


def kin(one: Step, other: Step) -> bool:
    """True if two steps are of the same recipe in the same place."""
    return _recipe_there(one) == _recipe_there(other)


def _recipe_there(step: Step) -> str:
    return step.id.rpartition("/")[0]


def _by(many: Iterable[T], key: Callable[[T], K]) -> dict[K, list[T]]:
    found: dict[K, list[T]] = {}
    for one in many:
        found.setdefault(key(one), []).append(one)
    return found
