"""Goal 1 from a plan at hand: the solver goes down from it, list passes go on where it gives up, then the solver goes
up from the bound, and at last many ways in turns."""

from __future__ import annotations

from dataclasses import replace

from sequencer.solve.improve import Places, improve
from sequencer.solve.problem import Problem
from sequencer.solve.search import Found, Way, minimise_half_day

EFFORTS = {Way.DOWN: 5.0, Way.UP: 4.0, Way.TURNS: 4.0}
"""Limits of the searches, in the order they come in [deterministic seconds of the solver]."""

STEPS_PLACED = 300_000
"""Steps that list passes place after the first search. A matter of speed alone."""


def earliest(problem: Problem, places: Places, effort: float, at_least: int) -> Found:
    """The earliest hand-over and what is known of it, in half-days; `effort` scales the limits.

    `at_least`: the half-day before which no plan hands over, as far as is known.
    """
    found = Found(places, problem.half_day_of(places), at_least)
    for way, limit in EFFORTS.items():
        further = minimise_half_day(problem, found.places, limit * effort, found.bound, way)
        found = replace(further, bound=max(found.bound, further.bound))
        if way is Way.DOWN and not _settled(found):
            found = _by_list(problem, found.places or places, effort, found.bound)
        if _settled(found):
            break
    return found


def _settled(found: Found) -> bool:
    return found.interrupted or found.value <= found.bound


def _by_list(problem: Problem, places: Places, effort: float, bound: int) -> Found:
    def enough(better: Places) -> bool:
        return problem.half_day_of(better) <= bound

    starts = list(map(float, problem.slots(places)))
    improved = improve(problem, [starts], round(STEPS_PLACED * effort / len(starts)), enough)
    best = min((improved.places or places, places), key=lambda one: one[problem.hand_over])
    return Found(best, problem.half_day_of(best), bound, interrupted=improved.interrupted)
