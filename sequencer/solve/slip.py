"""How much later each task may start before hand-over moves, with the order of work kept as it is in the plan."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise

from sequencer.solve.problem import Arc, Group, Problem
from sequencer.solve.trim import trim


def slips(problem: Problem, places: list[int]) -> list[int]:
    """Slots each task may slip, hand-over staying at its own start. Claims keep the order they have in the plan."""
    kept = [arc for group in problem.groups for arc in _in_order(problem, group, places)]
    trimmed = trim(replace(problem, arcs=(*problem.arcs, *kept), groups=()), places[problem.hand_over])
    last = places if trimmed is None else trimmed.last
    return [
        max(0, int(starts[late] - starts[place]))
        for starts, place, late in zip(problem.starts, places, last, strict=True)
    ]


def _in_order(problem: Problem, group: Group, places: list[int]) -> list[Arc]:
    """An arc from every claim to each one that starts after its end; to the next, where one follows another."""
    arcs = []
    claims = sorted(group.claims, key=lambda claim: int(problem.starts[claim.task][places[claim.task]]))
    for one, other in pairwise(claims) if group.n == 1 else combinations(claims, 2):
        until = int(one.until[places[one.last]])
        if until <= int(problem.starts[other.task][places[other.task]]) and one.last != other.task:
            arcs.append(Arc(one.last, other.task, one.until))
    return arcs
