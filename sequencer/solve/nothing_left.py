"""Whether orders, waits and windows alone leave no plan: seen without a search."""

from __future__ import annotations

from sequencer.solve.both_in_time import never_both
from sequencer.solve.problem import Problem
from sequencer.solve.trim import trim


def nothing_left(problem: Problem) -> bool:
    """True if they leave some task no start, or two no way to follow a third in time: then there is no plan."""
    if not all(len(starts) for starts in problem.starts):
        return True
    return trim(problem, len(problem.starts[problem.hand_over]) - 1) is None or never_both(problem) is not None
