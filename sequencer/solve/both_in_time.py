"""Two tasks that must start in time after a third, and are never at once: where neither way round is in time, whenever
the third is done, there is no plan. Orders and windows do not see it, and a search would try every such moment."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from sequencer.solve.problem import Problem, SlotClaim, Slots

_Open: TypeAlias = tuple[NDArray[np.int64], NDArray[np.bool_]]


@dataclass(frozen=True)
class _Hurried:
    """A task that must start from `release` to `latest`, by the places of the task it follows."""

    task: int
    release: Slots
    latest: Slots


def never_both(problem: Problem) -> tuple[int, int, int] | None:
    """Such a task and the two that cannot both follow it in time; None if there are none."""
    hurried = _hurried(problem)
    for group in problem.groups:
        claims = {claim.task: claim for claim in group.claims if claim.last == claim.task and claim.begin is None}
        for before, after in hurried.items():
            here = [one for one in after if one.task in claims]
            for one, other in combinations(here, 2):
                crowd = claims[one.task].amount + claims[other.task].amount > group.n
                if crowd and not _any_way(problem, one, other, claims):
                    return before, one.task, other.task
    return None


def _hurried(problem: Problem) -> dict[int, list[_Hurried]]:
    """The tasks that must follow each in time, where there are two or more."""
    latest = {(window.before, window.after): window.latest for window in problem.latests}
    found: dict[int, list[_Hurried]] = defaultdict(list)
    for arc in problem.arcs:
        if (arc.before, arc.after) in latest:
            found[arc.before].append(_Hurried(arc.after, arc.release, latest[arc.before, arc.after]))
    return {before: after for before, after in found.items() if len(after) > 1}


def _any_way(problem: Problem, one: _Hurried, other: _Hurried, claims: Mapping[int, SlotClaim]) -> bool:
    return any(bool(ways.any()) for ways in _ways(problem, one, other, claims))


def _ways(
    problem: Problem, one: _Hurried, other: _Hurried, claims: Mapping[int, SlotClaim]
) -> Iterator[NDArray[np.bool_]]:
    """For either way round, by the places of the task in front: whether both can start in time."""
    for first, then in ((one, other), (other, one)):
        place, in_time = _soonest(problem.starts[first.task], first.release, first.latest)
        over = claims[first.task].until[place]
        _, after = _soonest(problem.starts[then.task], np.maximum(then.release, over), then.latest)
        yield in_time & after


def _soonest(starts: Slots, release: Slots, latest: Slots) -> _Open:
    """The places of the soonest starts from some moments on, and whether they are in time."""
    place = np.minimum(starts.searchsorted(release), len(starts) - 1)
    return place, (starts[place] >= release) & (starts[place] <= latest)
