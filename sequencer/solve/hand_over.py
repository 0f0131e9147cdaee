"""Goal 1 from a plan at hand: the solver goes one way, list passes go on where it gives up, then it goes many ways."""

from __future__ import annotations

from dataclasses import replace

from sequencer.solve.improve import Places, improve
from sequencer.solve.problem import Problem
from sequencer.solve.search import Found, minimise_half_day

ONE_WAY, MANY_WAYS = 5.0, 8.0
"""Limits of the two searches [deterministic seconds of the solver]."""

STEPS_PLACED = 300_000
"""Steps that list passes place between the two searches. A matter of speed alone."""


def earliest(problem: Problem, places: Places, effort: float, at_least: int) -> Found:
    """The earliest hand-over and what is known of it, in half-days; `effort` scales the limits.

    `at_least`: the half-day before which no plan hands over, as far as is known.
    """
    found = minimise_half_day(problem, places, ONE_WAY * effort, at_least)
    if found.interrupted or found.value <= max(found.bound, at_least):
        return found
    bound = max(found.bound, at_least)
    further = _by_list(problem, found.places or places, effort, bound)
    if further.interrupted or further.value <= bound:
        return further
    last = minimise_half_day(problem, further.places, MANY_WAYS * effort, bound, many_ways=True)
    return replace(last, bound=max(last.bound, bound))


def _by_list(problem: Problem, places: Places, effort: float, bound: int) -> Found:
    half_day = problem.half_day

    def enough(better: Places) -> bool:
        return int(half_day[better[problem.hand_over]]) <= bound

    starts = [float(starts[place]) for starts, place in zip(problem.starts, places, strict=True)]
    improved = improve(problem, [starts], round(STEPS_PLACED * effort / len(starts)), enough)
    best = min((improved.places or places, places), key=lambda one: one[problem.hand_over])
    return Found(best, int(half_day[best[problem.hand_over]]), bound, interrupted=improved.interrupted)
