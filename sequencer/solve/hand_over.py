"""Goal 1 from a plan at hand: the solver goes down from it, list passes go on where it gives up, then the solver goes
up from the bound; where the two are close it goes down once more, and at last many ways in turns."""

from __future__ import annotations

from dataclasses import replace

from sequencer.solve.improve import Places, improve
from sequencer.solve.problem import Problem
from sequencer.solve.search import Found, Way, minimise_half_day

FIRST, AGAIN = 5.0, 4.0
"""Limits of the first search and of each behind it [deterministic seconds of the solver]."""

CLOSE = 3
"""Half-days between plan and bound up to which a search down from the plan is tried again: on so few it is another
search than from the first plan. A matter of speed alone."""

STEPS_PLACED = 300_000
"""Steps that list passes place after the first search. A matter of speed alone."""


def earliest(problem: Problem, places: Places, effort: float, at_least: int) -> Found:
    """The earliest hand-over and what is known of it, in half-days; `effort` scales the limits.

    `at_least`: the half-day before which no plan hands over, as far as is known.
    """
    found = Found(places, problem.half_day_of(places), at_least)
    found = _further(problem, found, Way.DOWN, FIRST * effort)
    if not _settled(found):
        found = _by_list(problem, found.places or places, effort, found.bound)
    for way in (Way.UP, Way.DOWN, Way.TURNS):
        if not _settled(found) and (way is not Way.DOWN or found.value - found.bound <= CLOSE):
            found = _further(problem, found, way, AGAIN * effort)
    return found


def _further(problem: Problem, found: Found, way: Way, limit: float) -> Found:
    further = minimise_half_day(problem, found.places, limit, found.bound, way)
    return replace(further, bound=max(found.bound, further.bound))


def _settled(found: Found) -> bool:
    return found.interrupted or found.value <= found.bound


def _by_list(problem: Problem, places: Places, effort: float, bound: int) -> Found:
    def enough(better: Places) -> bool:
        return problem.half_day_of(better) <= bound

    starts = list(map(float, problem.slots(places)))
    improved = improve(problem, [starts], round(STEPS_PLACED * effort / len(starts)), enough)
    best = min((improved.places or places, places), key=lambda one: one[problem.hand_over])
    return Found(best, problem.half_day_of(best), bound, interrupted=improved.interrupted)
