"""How much later each task may start before hand-over moves, the order of work kept as it is in the plan.

What begins before a task stays as it is, so a layer that must be followed in time binds; everything else may move.
That is exact: with the order kept, rules say only that one start is no earlier, or no later, than another's allows, so
that the latest starts of all tasks together are a plan as well.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate

from sequencer.solve.problem import Arc, Group, Problem
from sequencer.solve.trim import Trimmer


def slips(problem: Problem, places: list[int]) -> list[int]:
    """Slots each task may slip, every hand-over staying at its own start.

    Claims of a group that come one after the other in the plan stay so; those that overlap in it may do as they like.
    """
    kept = [arc for group in problem.groups for arc in _in_order(problem, group, places)]
    trimmer = Trimmer(replace(problem, arcs=(*problem.arcs, *kept), groups=()))
    starts = [lists[place] for lists, place in zip(trimmer.starts, places, strict=True)]
    last = [len(lists) - 1 for lists in trimmer.starts]
    for over in (problem.hand_over, *(end.task for end in problem.ends)):
        last[over] = places[over]
    kept_to = trimmer.fall(places, last)
    found = [0] * len(starts)
    for begun, now in _by_start(starts):
        for task in begun:
            last[task] = places[task]
        kept_to = kept_to and trimmer.fall(places, last, begun)
        for task in now:
            found[task] = trimmer.starts[task][last[task]] - starts[task]
    assert kept_to, "the plan at hand breaks an order, a wait or a window"
    return found


def _by_start(starts: Sequence[int]) -> Iterator[tuple[list[int], list[int]]]:
    """The tasks that start at each moment of a plan, behind those that started at the moment before it."""
    tasks: dict[int, list[int]] = {}
    for task in sorted(range(len(starts)), key=lambda task: starts[task]):
        tasks.setdefault(starts[task], []).append(task)
    begun: list[int] = []
    for now in tasks.values():
        yield begun, now
        begun = now


def _in_order(problem: Problem, group: Group, places: Sequence[int]) -> Iterator[Arc]:
    """Arcs that keep every claim behind those that are over when it begins; what other arcs imply is left out."""
    begins = [int(problem.starts[claim.task][places[claim.task]]) for claim in group.claims]
    untils = [int(claim.until[places[claim.last]]) for claim in group.claims]
    ended = sorted(range(len(begins)), key=lambda one: (untils[one], begins[one], one))
    ends = [untils[one] for one in ended]
    last_begun = list(accumulate((begins[one] for one in ended), max))
    for turn, one in enumerate(ended):
        over = bisect_right(ends, begins[one], 0, turn)
        nearest = bisect_left(ends, last_begun[over - 1], 0, over) if over else 0
        for before in (group.claims[other] for other in ended[nearest:over]):
            if before.last != group.claims[one].task:
                yield Arc(before.last, group.claims[one].task, before.until)
