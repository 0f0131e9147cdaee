"""The first half-day of hand-over that no bound rules out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import TypeAlias

import numpy as np

from sequencer.network.model import Network
from sequencer.solve.bounds.cliques import cliques
from sequencer.solve.bounds.energy import overspent
from sequencer.solve.bounds.loads import Load
from sequencer.solve.bounds.pairs import pairs, too_late
from sequencer.solve.bounds.reach import Reach
from sequencer.solve.bounds.stretches import overloaded
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed, Trimmer

RulesOut: TypeAlias = Callable[[Trimmed], bool]
"""True if no plan keeps every task within these ranges."""

MOST_IN_CLIQUES = 250
"""Tasks up to which cliques are looked for. A matter of speed alone."""


def by_load(problem: Problem, loads: Sequence[Load]) -> list[RulesOut]:
    """What costs next to nothing: the load of each trade in stretches."""
    return [partial(overloaded, problem, load=load) for load in loads]


def in_depth(network: Network, trimmer: Trimmer, loads: Sequence[Load]) -> list[RulesOut]:
    """What is asked where a plan is not as early as by load: pairs of trades, what must lie in a stretch, cliques."""
    problem = trimmer.problem
    if trimmer.first is None:
        return []
    reach = Reach(network, trimmer)
    of_one = cliques(network, reach) if len(network.tasks) <= MOST_IN_CLIQUES else []
    paired = pairs(problem, loads, reach, trimmer.first)
    return [
        *(partial(too_late, problem, pair=pair) for pair in paired),
        *(partial(overspent, problem, load=load) for load in (*loads, *of_one)),
    ]


def least_half_day(trimmer: Trimmer, known: int, all_bounds: Sequence[RulesOut], at_least: int = 0) -> int:
    """The first half-day of hand-over from `at_least` on that nothing rules out, at most `known`, that of a plan."""
    problem = trimmer.problem
    half_days = np.unique(problem.half_day[(problem.half_day >= at_least) & (problem.half_day <= known)]).tolist()
    low, high = 0, len(half_days) - 1
    while low < high:
        middle = (low + high) // 2
        if may_be_by(trimmer, half_days[middle], all_bounds):
            high = middle
        else:
            low = middle + 1
    return int(half_days[low])


def may_be_by(trimmer: Trimmer, half_day: int, all_bounds: Sequence[RulesOut]) -> bool:
    """True if nothing rules out hand-over in a half-day or before."""
    trimmed = trimmer.trim(trimmer.problem.last_place(half_day))
    return trimmed is not None and not any(rules_out(trimmed) for rules_out in all_bounds)
