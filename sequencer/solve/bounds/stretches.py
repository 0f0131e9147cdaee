"""Load per trade in stretches: more to do between a first start and a last end than there are hands and hours for."""

from __future__ import annotations

import numpy as np

from sequencer.solve.bounds.loads import Load
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmed


def overloaded(problem: Problem, trimmed: Trimmed, load: Load) -> bool:
    """True if in some stretch more work lies wholly inside than there are hands and hours for."""
    begins = load.minutes(problem, trimmed.first)
    ends = load.ends(load.minutes(problem, trimmed.last))
    order = np.argsort(ends, kind="stable")
    done = load.openings.worked(ends[order])
    for begin in np.unique(begins).tolist():
        must = np.cumsum(np.where(begins[order] >= begin, load.work[order], 0))
        there = done - load.openings.worked(np.array([begin]))[0]
        if bool(np.any((must > load.hands * there) & (must > 0))):
            return True
    return False
