"""How early each of several jobs could be handed over if it had its people to itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sequencer.network.across import in_job
from sequencer.network.ahead import ahead
from sequencer.network.model import HAND_OVER, Network
from sequencer.solve.look import look_at, looked_into
from sequencer.solve.solve import HAND_OVER_EFFORT, MOST_TASKS, PASSES
from sequencer.terms.minute import Minute


@dataclass(frozen=True)
class Alone:
    """A job by itself: the half-day before which no plan of it hands over, and the starts of the best plan found."""

    half_day: int
    starts: Mapping[str, Minute]


def alone(network: Network, effort: float = 1.0) -> Alone:
    """How early one of several jobs could be handed over if it had its people to itself."""
    from sequencer.solve.search import minimise_half_day

    network = ahead(network)
    look = look_at(network, PASSES)
    if look.places is None:
        return Alone(look.bound, {})
    look = looked_into(network, look)
    problem, places, bound = look.problem, look.places, look.bound
    assert places is not None
    value = problem.half_day_of(places)
    if value > bound and effort and len(network.tasks) <= MOST_TASKS:
        found = minimise_half_day(problem, places, HAND_OVER_EFFORT * effort, bound)
        if found.interrupted:
            raise KeyboardInterrupt
        places, bound = found.places or places, max(bound, found.bound)
    minutes = map(problem.minute, problem.slots(places))
    return Alone(bound, dict(zip(problem.ids, minutes, strict=True)))


def floors(by_itself: Mapping[str, Alone]) -> dict[str, int]:
    """The half-days before which no plan hands over, by the tasks of hand-over."""
    return {in_job(name, HAND_OVER): alone.half_day for name, alone in by_itself.items()}
