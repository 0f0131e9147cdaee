"""Tasks of which no two can overlap, whatever keeps each two apart: hands both need, or an order between them."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sequencer.network.hours import Openings
from sequencer.network.model import Network
from sequencer.solve.bounds.loads import Load, load_of, plain_groups
from sequencer.solve.bounds.reach import Reach
from sequencer.solve.widths import base_of
from sequencer.terms.job import Workday

Apart = NDArray[np.bool_]


def cliques(network: Network, reach: Reach) -> list[Load]:
    """From every task the clique that takes in the longest of the rest that fits, each clique once, as loads of one."""
    number = {id: place for place, id in enumerate(network.tasks)}
    tasks = list(network.tasks.values())
    apart = _apart(network, number, reach)
    work = np.array([0 if task.work.whole_window else task.work.minutes for task in tasks], dtype=np.int64)
    base, everybody = base_of(network), _all_of(network)
    found: dict[tuple[int, ...], Load] = {}
    for seed in np.flatnonzero(work).tolist():
        members = _grown(seed, apart, work)
        if len(members) > 1 and members not in found:
            them = [tasks[task] for task in members]
            found[members] = load_of(number, 1, them, [1] * len(them), everybody, base)
    return list(found.values())


def _grown(seed: int, apart: Apart, work: NDArray[np.int64]) -> tuple[int, ...]:
    members, left = [seed], apart[seed].copy()
    while True:
        best = int(np.argmax(np.where(left, work, 0)))
        if not left[best] or not work[best]:
            return tuple(sorted(members))
        members.append(best)
        left &= apart[best]


def _apart(network: Network, number: dict[str, int], reach: Reach) -> Apart:
    """True where two tasks never overlap."""
    count = len(number)
    apart = np.zeros((count, count), dtype=np.bool_)
    for hands, claims in plain_groups(network):
        them = np.array([number[claim.task] for claim in claims], dtype=np.int64)
        amounts = np.array([claim.amount for claim in claims], dtype=np.int64)
        apart[np.ix_(them, them)] |= amounts[:, None] + amounts[None, :] > hands
    for task in range(count):
        for other in reach.after(task):
            apart[task, other] = apart[other, task] = True
    np.fill_diagonal(apart, False)
    return apart


def _all_of(network: Network) -> Openings:
    """The hours in which anybody is there."""
    hours = list({id(task.work.openings): task.work.openings for task in network.tasks.values()}.values())
    if len(hours) == 1:
        return hours[0]
    spans = sorted(span for one in hours for span in zip(one.opens.tolist(), one.closes.tolist(), strict=True))
    joined: list[tuple[int, int]] = []
    for opens, closes in spans:
        if joined and opens <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(closes, joined[-1][1]))
        else:
            joined.append((opens, closes))
    return Openings((Workday(tuple(joined)),))
