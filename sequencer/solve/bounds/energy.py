"""Energetic reasoning: what of each task must lie in a stretch, however it is moved, against hands and hours there.

The idea is Erschler and Lopez's (energy-based approach, 1990; from memory). Here a stretch is measured in the open
minutes of a trade, so a night between two days is none.
"""

from __future__ import annotations

import numpy as np

from sequencer.solve.bounds.loads import Ints, Load
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed

EDGES = 64
"""Most begins, and most ends, of stretches that are looked at. A matter of speed alone."""


def overspent(problem: Problem, trimmed: Trimmed, load: Load) -> bool:
    """True if in some stretch tasks must take up more than there are hands and hours for.

    A task begun at its first place overlaps the beginning of a stretch the least, at its last place the end. Between
    the two it is never less than the lesser of them, or than all its work.
    """
    sides = [load.minutes(problem, places) for places in (trimmed.first, trimmed.last)]
    begins = [load.counted(starts) for starts in sides]
    ends = [load.counted(load.ends(starts)) for starts in sides]
    whole = (load.work // load.amounts)[:, None, None]
    opens = _some(np.concatenate(begins))[:, None]
    closes = _some(np.concatenate(ends))
    at_first, at_last = (_overlap(begin, end, opens, closes) for begin, end in zip(begins, ends, strict=True))
    least = np.minimum(np.minimum(at_first, at_last), whole)
    taken = np.tensordot(load.amounts, least, 1)
    return bool(np.any((taken > load.hands * (closes - opens)) & (closes > opens)))


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
