"""Exact passes that trim each task's starts: no earlier than work before it, no later than hand-over allows."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sequencer.solve.problem import Problem


@dataclass(frozen=True)
class Trimmed:
    """For each task the first and last place in its starts that can still be part of a plan (both included)."""

    first: tuple[int, ...]
    last: tuple[int, ...]


def trim(problem: Problem, hand_over_by: int) -> Trimmed | None:
    """Trims by orders, waits and windows, with hand-over at its `hand_over_by`-th start or before. None: no plan."""
    first = [0] * len(problem.ids)
    last = [len(starts) - 1 for starts in problem.starts]
    last[problem.hand_over] = hand_over_by
    changed = True
    while changed:
        if any(a > b for a, b in zip(first, last, strict=True)):
            return None
        changed = _pass(problem, first, last)
    return Trimmed(tuple(first), tuple(last))


def _pass(problem: Problem, first: list[int], last: list[int]) -> bool:
    before = (list(first), list(last))
    for arc in problem.arcs:
        i, j = arc.before, arc.after
        if first[i] > last[i] or first[j] > last[j]:
            return True
        soonest = problem.starts[j].searchsorted(arc.release[first[i]])
        first[j] = max(first[j], int(soonest))
        if first[j] > last[j]:
            return True
        last[i] = min(last[i], int(np.searchsorted(arc.release, problem.starts[j][last[j]], side="right")) - 1)
    for latest in problem.latests:
        i, j = latest.before, latest.after
        if first[i] > last[i] or first[j] > last[j]:
            return True
        last[j] = min(last[j], int(problem.starts[j].searchsorted(latest.latest[last[i]], side="right")) - 1)
        if first[j] > last[j]:
            return True
        first[i] = max(first[i], int(np.searchsorted(latest.latest, problem.starts[j][first[j]])))
    return before != (first, last)
