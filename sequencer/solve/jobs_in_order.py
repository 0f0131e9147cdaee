"""The first plan of several jobs: list passes with the jobs one behind the other, in many orders and distances."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import permutations

from sequencer.network.across import in_job, own_id
from sequencer.network.model import HAND_OVER, Network
from sequencer.solve.by_itself import Alone, floors
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.look import FIRST_LOOK
from sequencer.solve.measures import first_places, measures, promised, with_ends
from sequencer.solve.problem import Problem
from sequencer.solve.solve import PASSES, Tell, first_answer, solve
from sequencer.solve.trim import latest_starts

FEW_JOBS = 3
"""Jobs up to which list passes try every order of them."""

APART, FURTHEST = (0.0, 0.02, 0.05, 0.1, 0.25, 1.0), (0.0, 1.0)
"""How far jobs are held apart in such an order, as a part of the plan's length; of many jobs only one stands in front.
A matter of speed alone."""


@dataclass(frozen=True)
class FirstPlan:
    """A plan by places, the firm visits given up in it, and whether it is proven that no fewer would do."""

    problem: Problem
    places: list[int]
    released: tuple[str, ...] = ()
    fewest: bool = True


def first_plan(
    network: Network, by_itself: Mapping[str, Alone], effort: float, told: Tell, first: str | None
) -> FirstPlan:
    """A plan by list passes, jobs in one order after the other; else as for one job, visits given up: without effort by
    list passes too."""
    behind = min(len(network.ends) - 1, 2) * FIRST_LOOK // 2
    reach = FIRST_LOOK + behind + max(end.half_days[0] for end in network.ends) - network.start
    until = min(network.start + reach, network.horizon)
    while True:
        problem = with_ends(lay(network, until), network)
        places = _passed(problem, by_itself, first)
        if places is not None:
            return FirstPlan(problem, places)
        if until == network.horizon:
            break
        until = min(2 * until - network.start, network.horizon)
    answer = solve(network, effort, told, tidy=False) if effort else first_answer(network)
    problem = with_ends(lay(network.without_bookings(answer.released), network.horizon), network)
    slots = [(answer.starts[id] - problem.base) // problem.slot for id in problem.ids]
    found = [int(starts.searchsorted(slot)) for starts, slot in zip(problem.starts, slots, strict=True)]
    return FirstPlan(problem, found, answer.released, answer.fewest)


def _passed(problem: Problem, by_itself: Mapping[str, Alone], first: str | None) -> list[int] | None:
    """The best plan of the list passes, as the measures have it."""
    if not all(map(len, problem.starts)):
        return None
    begin = first_places(problem, floors(by_itself))
    latest = [latest_starts(problem, len(problem.half_day) - 1, by) for by in ({}, promised(problem, begin), begin)]
    if latest[0] is None:
        return None
    latest.append(_as_alone(problem, by_itself, latest[0]))
    judged = measures(problem, in_job(first, HAND_OVER) if first else None)
    most = [int(sum(int(values[-1]) for _, values in measure.parts)) + 1 for measure in judged]

    def worth(places: list[int]) -> int:
        total = 0
        for measure, above in zip(judged, most, strict=True):
            total = total * above + measure.of(places)
        return total

    def enough(places: list[int]) -> bool:
        return all(measure.of(places) == measure.least(begin) for measure in judged)

    machine = ListPass(problem)
    tried = (machine.run(order) for base in latest if base is not None for order in _in_orders(problem, base))
    plans = [found for found in tried if not isinstance(found, Stuck)]
    best = min(plans, key=worth, default=None)
    if best is not None and enough(best):
        return best
    order = latest[0] if best is None else [float(s[place]) for s, place in zip(problem.starts, best, strict=True)]
    better = improve(problem, [order], PASSES, enough, worth).places
    return min((found for found in (best, better) if found is not None), key=worth, default=None)


def _as_alone(problem: Problem, by_itself: Mapping[str, Alone], others: list[float]) -> list[float]:
    """The starts that tasks have in the plans of their jobs by themselves (slots); those of `others` where unknown."""
    known = {in_job(name, id): at for name, alone in by_itself.items() for id, at in alone.starts.items()}
    return [
        (known[id] - problem.base) / problem.slot if id in known else value
        for id, value in zip(problem.ids, others, strict=True)
    ]


def _in_orders(problem: Problem, base: list[float]) -> list[list[float]]:
    """The priority with the jobs one behind the other, in every order while they are few, else each in front once."""
    jobs = list(dict.fromkeys(own_id(problem.ids[end.task])[0] for end in problem.ends))
    few = len(jobs) <= FEW_JOBS
    orders = list(permutations(jobs)) if few else [(job, *(o for o in jobs if o != job)) for job in jobs]
    whole = 1 + max(base) - min(base)
    of = [own_id(id)[0] for id in problem.ids]
    behind = [{job: number for number, job in enumerate(order)} for order in orders]
    return [
        [value + apart * whole * numbers.get(job, len(jobs)) for value, job in zip(base, of, strict=True)]
        for numbers in behind
        for apart in (APART if few else FURTHEST)
    ]
