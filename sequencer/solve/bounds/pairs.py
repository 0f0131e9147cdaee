"""Pairs of trades: what the second cannot begin before the first has done its part.

Of like pieces of work that one trade begins and another goes on with, the first has done only so many by any moment;
the second has all the others still before it, from then on. Where either stays away in between, neither alone shows it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np

from sequencer.solve.bounds.loads import Ints, Load
from sequencer.solve.bounds.reach import Reach
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed
from sequencer.terms.minute import Minute

BUSIEST = 4
"""Trades that are paired, those with most work for their hands. A matter of speed alone."""


@dataclass(frozen=True)
class Piece:
    """What a trade does up to the end of one task, and another from the start of a later one on [hand-minutes].

    `behind`: places in the second load of what that one does.
    """

    last: int
    first: int
    before: int
    after: int
    begun: frozenset[int]
    behind: frozenset[int]


@dataclass(frozen=True)
class Pair:
    """A trade's load behind another's: so much is still before it (`left`) from each moment on (`since`).

    `places`: those of the tasks it is done in.
    """

    load: Load
    since: Ints
    left: Ints
    places: Ints


def pairs(problem: Problem, loads: Sequence[Load], reach: Reach, first: Sequence[int]) -> list[Pair]:
    """A pair for every two of the busiest trades where one goes on with at least two pieces of the other's work.

    `first`: the first place of every task.
    """
    busiest = sorted(loads, key=lambda load: -int(load.work.sum()) // load.hands)[:BUSIEST]
    found = []
    for one, other in permutations(busiest, 2):
        pieces = _pieces(one, other, reach)
        if len(pieces) > 1:
            found.append(_pair(problem, one, other, pieces, reach, first))
    return found


def too_late(problem: Problem, trimmed: Trimmed, pair: Pair) -> bool:
    """True if the second trade is not done with what it still has before it by the last end that hand-over leaves."""
    ends = pair.load.ends(pair.load.minutes(problem, trimmed.last))[pair.places]
    by = pair.load.counted(np.array([ends.max()], dtype=np.int64))[0]
    return bool(np.any(pair.left > pair.load.hands * np.maximum(by - pair.load.counted(pair.since), 0)))


def _pieces(one: Load, other: Load, reach: Reach) -> list[Piece]:
    """Pieces that share no task, those with most work first."""
    mine = {task: int(work) for task, work in zip(one.tasks, one.work.tolist(), strict=True)}
    theirs = {task: int(work) for task, work in zip(other.tasks, other.work.tolist(), strict=True)}
    my_bits, their_bits = (sum(1 << task for task in set(load.tasks)) for load in (one, other))
    begun: dict[int, set[int]] = {task: {task} for task in mine}
    for task in mine:
        for later in reach.among(task, my_bits):
            begun[later].add(task)
    behind = {task: frozenset((task, *reach.among(task, their_bits))) for task in theirs}
    after = {task: sum(map(theirs.__getitem__, them)) for task, them in behind.items()}
    possible = []
    for last, before in begun.items():
        work = sum(map(mine.__getitem__, before))
        firsts = [first for first in reach.among(last, their_bits) if work and after[first]]
        if firsts:
            best = max(firsts, key=lambda first: (after[first], -first))
            possible.append(Piece(last, best, work, after[best], frozenset(before), behind[best]))
    taken: set[int] = set()
    gone_on: set[int] = set()
    found = []
    for piece in sorted(possible, key=lambda one: (-one.before - one.after, one.last, one.first)):
        if taken.isdisjoint(piece.begun) and gone_on.isdisjoint(piece.behind):
            taken |= piece.begun
            gone_on |= piece.behind
            found.append(piece)
    return found


def _pair(
    problem: Problem, one: Load, other: Load, pieces: Sequence[Piece], reach: Reach, first: Sequence[int]
) -> Pair:
    """How much is left when the shortest so many pieces can be done, for every number of them."""
    heads = dict(zip(one.tasks, one.minutes(problem, first).tolist(), strict=True))
    begin: Minute = min(heads[task] for piece in pieces for task in piece.begun)
    done = one.done(begin, np.cumsum(np.sort([piece.before for piece in pieces])))
    since = np.min([_released(problem, one, piece, reach, done) for piece in pieces], axis=0)
    left = np.cumsum(np.sort([piece.after for piece in pieces]))[::-1]
    at = {task: place for place, task in enumerate(other.tasks)}
    places = np.array(sorted(at[task] for piece in pieces for task in piece.behind), dtype=np.int64)
    return Pair(other, since, left, places)


def _released(problem: Problem, load: Load, piece: Piece, reach: Reach, done: Ints) -> Ints:
    """The soonest start of what goes on with a piece if that ends no sooner than each moment [Minute]."""
    mine, theirs = problem.starts[piece.last], problem.starts[piece.first]
    ends = load.ends_of(piece.last, problem.base + problem.slot * mine)
    soonest = np.append(reach.soonest(piece.last, piece.first), len(theirs))[ends.searchsorted(done)]
    return np.asarray(problem.base + problem.slot * np.append(theirs, theirs[-1] + 1)[soonest])
