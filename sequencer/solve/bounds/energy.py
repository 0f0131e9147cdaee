"""Energetic reasoning: what of each task must lie in a stretch, however it is moved, against hands and hours there.

The idea is Erschler and Lopez's (energy-based approach, 1990; from memory). Here a stretch is measured in the open
minutes of a trade, so a night between two days is none.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sequencer.solve.bounds.loads import Ints, Load
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed

EDGES = 64
"""Most begins, and most ends, of stretches that are looked at. A matter of speed alone."""

AT_ONCE = 500_000
"""Tasks times stretches that are looked at at once: what is held in memory meanwhile."""


def overspent(problem: Problem, trimmed: Trimmed, load: Load) -> bool:
    """True if in some stretch tasks must take up more than there are hands and hours for.

    A task begun at its first place overlaps the beginning of a stretch the least, at its last place the end. Between
    the two it is never less than the lesser of them, or than all its work.
    """
    sides = [load.minutes(problem, places) for places in (trimmed.first, trimmed.last)]
    begins = [load.counted(starts) for starts in sides]
    ends = [load.counted(load.ends(starts)) for starts in sides]
    opens, closes = (_some(np.concatenate(sides)) for sides in (begins, ends))
    step = max(1, AT_ONCE // (len(load.tasks) * len(closes)))
    return any(_spent(load, begins, ends, opens[at : at + step], closes) for at in range(0, len(opens), step))


def _spent(load: Load, begins: Sequence[Ints], ends: Sequence[Ints], opens: Ints, closes: Ints) -> bool:
    """The same for the stretches between some begins and some ends."""
    sides = zip(begins, ends, strict=True)
    at_first, at_last = (_overlap(begin, end, opens[:, None], closes) for begin, end in sides)
    least = np.minimum(np.minimum(at_first, at_last), (load.work // load.amounts)[:, None, None])
    taken = np.tensordot(load.amounts, least, 1)
    there = load.hands * (closes - opens[:, None])
    return bool(np.any((taken > there) & (there > 0)))


def _overlap(begins: Ints, ends: Ints, opens: Ints, closes: Ints) -> Ints:
    """How much of each task lies in every stretch: by task, begin and end of the stretch."""
    inside = np.minimum(ends[:, None, None], closes) - np.maximum(begins[:, None, None], opens)
    return np.asarray(np.maximum(inside, 0))


def _some(moments: Ints) -> Ints:
    """The different ones, evenly thinned out where they are too many."""
    different = np.unique(moments)
    if len(different) <= EDGES:
        return different
    return np.asarray(different[np.linspace(0, len(different) - 1, EDGES).astype(np.int64)])
