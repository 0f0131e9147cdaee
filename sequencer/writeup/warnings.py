"""What a plan warns of: rooms that their own layers make too damp, and starts that warmth takes away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sequencer.writeup.damp_rooms import damp_rooms
from sequencer.writeup.lost_to_warmth import lost_to_warmth
from sequencer.writeup.timed import Timed

Warned = tuple[tuple[str, ...], str]
"""The steps it is about, by id, and the sentence."""


def warnings(timed: Timed) -> tuple[Warned, ...]:
    """Every warning once: rooms by time, then steps in the order of the files."""
    return tuple(dict.fromkeys(_all(timed)))


def by_step(told: Sequence[Warned]) -> dict[str, tuple[str, ...]]:
    """The warnings by the steps they are about."""
    found: dict[str, tuple[str, ...]] = {}
    for steps, text in told:
        for id in dict.fromkeys(steps):
            found[id] = (*found.get(id, ()), text)
    return found


def _all(timed: Timed) -> Iterator[Warned]:
    yield from damp_rooms(timed)
    for step in timed.case.job.steps:
        yield from lost_to_warmth(timed, step)
