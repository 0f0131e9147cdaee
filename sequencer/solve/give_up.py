"""Which firm visits are given up where not all of them fit: what list passes and windows tell, before a search.

As few as can be, and of sets as few one whose visits lie later: a visit is the harder to call off the sooner it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, islice

from sequencer.network.model import Network
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.nothing_left import nothing_left
from sequencer.solve.problem import Problem
from sequencer.solve.trim import latest_starts
from sequencer.terms.minute import Minute

SETS, PASSES = 24, 20
"""Sets of visits looked at, and list passes for each. A matter of speed alone."""


@dataclass(frozen=True)
class GivenUp:
    """Steps whose firm visit is given up; `sure`: no fewer would do, and none that lie later."""

    steps: tuple[str, ...]
    sure: bool


def given_up(network: Network, booked: Mapping[str, Minute], latest: Minute, certain: bool) -> GivenUp:
    """A few firm visits without which list passes find a plan that is over by `latest`.

    `booked`: the moment of every firm visit, by step; `certain`: none fits with all of them. Where no set among the
    first is enough, all are given up and taken back one by one, the soonest first.
    """
    for steps in islice(_by_number(booked), SETS):
        problem = lay(network.without_bookings(steps), latest)
        if _found(problem):
            return GivenUp(steps, certain)
        certain = certain and nothing_left(problem)
    gone = tuple(sorted(booked, key=lambda step: booked[step]))
    for step in gone:
        fewer = tuple(other for other in gone if other != step)
        if _found(lay(network.without_bookings(fewer), latest)):
            gone = fewer
    return GivenUp(gone, False)


def _by_number(booked: Mapping[str, Minute]) -> Iterator[tuple[str, ...]]:
    """The sets of visits, the smallest first, and of as many those that lie later."""
    later_first = sorted(booked, key=lambda step: booked[step], reverse=True)
    for count in range(1, len(later_first) + 1):
        sets = combinations(range(len(later_first)), count)
        yield from (tuple(later_first[rank] for rank in ranks) for ranks in sorted(sets, key=sum))


def _found(problem: Problem) -> bool:
    """True if one of a few list passes finds a plan."""
    if not all(len(starts) for starts in problem.starts):
        return False
    base = latest_starts(problem, len(problem.starts[problem.hand_over]) - 1)
    return base is not None and improve(problem, [base], PASSES, lambda places: True).places is not None
