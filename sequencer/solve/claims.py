"""The claims of a problem as list passes look at them: by the task that makes them and by the one that ends them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import TypeAlias

import numpy as np

from sequencer.solve.problem import Problem, Slots

Own: TypeAlias = tuple[int, Sequence[int], Sequence[int], int]
"""A claim that a task makes and ends itself: its group, begin and end by place, amount."""
Opened: TypeAlias = tuple[int, Sequence[int], int, Sequence[int], int]
"""A claim that another task ends: its group, begin by place, that task, end by that task's place, amount."""
Closing: TypeAlias = tuple[int, int, Sequence[int], Sequence[int], int]
"""The same as the task that ends it sees it: its group, the task that makes it, begin by its place, end by place."""
Stretch: TypeAlias = tuple[Sequence[int], Sequence[int], tuple[tuple[int, int], ...]]
"""Claims that a task makes and ends itself and that are as long: begin and end by place, their groups and the amount in
each."""


def claims_of(problem: Problem) -> tuple[list[list[Own]], list[list[Opened]], list[list[Closing]]]:
    """For every task the claims it makes and ends, makes, and ends. None of the first kind is shorter than a slot."""
    tasks, lists = range(len(problem.ids)), problem.lists.of
    own: list[list[Own]] = [[] for _ in tasks]
    opened: list[list[Opened]] = [[] for _ in tasks]
    closes: list[list[Closing]] = [[] for _ in tasks]
    known: dict[tuple[int, int], Slots] = {}
    for number, group in enumerate(problem.groups):
        for claim in group.claims:
            begin = problem.starts[claim.task] if claim.begin is None else claim.begin
            if claim.last == claim.task:
                key = (id(begin), id(claim.until))
                if key not in known:
                    known[key] = _a_slot_at_least(begin, claim.until)
                own[claim.task].append((number, lists(begin), lists(known[key]), claim.amount))
            else:
                opened[claim.task].append((number, lists(begin), claim.last, lists(claim.until), claim.amount))
                closes[claim.last].append((number, claim.task, lists(begin), lists(claim.until), claim.amount))
    return own, opened, closes


def stretches(own: Sequence[Own]) -> list[Stretch]:
    """The claims of a task, those of the same stretch together."""
    alike: dict[tuple[int, int], list[Own]] = defaultdict(list)
    for claim in own:
        alike[id(claim[1]), id(claim[2])].append(claim)
    return [
        (claims[0][1], claims[0][2], tuple((group, amount) for group, *_, amount in claims))
        for claims in alike.values()
    ]


def _a_slot_at_least(begin: Slots, until: Slots) -> Slots:
    return until if (until > begin).all() else np.maximum(until, begin + 1)
