"""Solves the network of several jobs: fewest days late against promises, then the least sum of hand-overs.

One job may come first: then its own hand-over is the earliest it can be, and the others follow as they can.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import permutations
from typing import TYPE_CHECKING

from sequencer.network.across import in_job, own_id
from sequencer.network.ahead import ahead
from sequencer.network.model import HAND_OVER, Network
from sequencer.solve.answer import Answer, GoalReached
from sequencer.solve.between import Range
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.look import FIRST_LOOK, look_at
from sequencer.solve.measures import Bounded, first_places, kept_half_days, measures, promised, with_ends
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.solve.solve import HAND_OVER_EFFORT, MOST_TASKS, PASSES, Tell, solve
from sequencer.solve.trim import trim
from sequencer.terms.goal import HAND_OVER_GOAL
from sequencer.terms.minute import Minute

if TYPE_CHECKING:
    from sequencer.solve.search_goals import Settled

TIDY = 0.4
"""How much of the usual effort goes into the goals behind hand-over: of many jobs it seldom proves them."""

FEW_JOBS = 3
"""Jobs up to which list passes try every order of them."""

APART, FURTHEST = (0.0, 0.02, 0.05, 0.1, 0.25, 1.0), (0.0, 1.0)
"""How far jobs are held apart in such an order, as a part of the plan's length; of many jobs each stands in front alone.
A matter of speed alone."""


@dataclass(frozen=True)
class AnswerOfAll:
    """An answer for each job by its name, and how far the goals of all of them together are proven.

    `goals`: days late and hand-overs; `behind`: what decided between plans alike in these.
    """

    answers: dict[str, Answer]
    goals: tuple[GoalReached, ...]
    behind: tuple[GoalReached, ...] = ()
    interrupted: bool = False


@dataclass(frozen=True)
class Alone:
    """A job by itself: the half-day before which no plan of it hands over, and the starts of the best plan found."""

    half_day: int
    starts: Mapping[str, Minute]


def alone(network: Network, effort: float = 1.0) -> Alone:
    """How early one of several jobs could be handed over if it had its people to itself."""
    from sequencer.solve.search import minimise_half_day

    network = ahead(network)
    look = look_at(network, PASSES)
    problem, places, bound = look.problem, look.places, look.bound
    if places is None:
        return Alone(bound, {})
    value = int(problem.half_day[places[problem.hand_over]])
    if value > bound and effort and len(network.tasks) <= MOST_TASKS:
        found = minimise_half_day(problem, places, HAND_OVER_EFFORT * effort, bound)
        places, bound = found.places or places, max(bound, found.bound)
    minutes = (problem.minute(int(starts[place])) for starts, place in zip(problem.starts, places, strict=True))
    return Alone(bound, dict(zip(problem.ids, minutes, strict=True)))


def solve_several(
    network: Network,
    by_itself: Mapping[str, Alone],
    effort: float = 1.0,
    told: Tell = lambda _: None,
    first: str | None = None,
    tidy: bool = True,
) -> AnswerOfAll:
    """Times for every task of every job. `by_itself`: what each job could have alone, by its name.

    `first`: the job whose hand-over comes before all others. Without `tidy` the goals behind hand-over are left out.
    NoAnswer if no times fit or none were found.
    """
    network = ahead(network)
    problem, places, released = _first_plan(network, by_itself, effort, told, first)
    begin = first_places(problem, _floors(by_itself))
    kept: list[Bounded] = []
    goals: list[GoalReached] = []
    interrupted = False
    searched = effort > 0 and len(network.tasks) <= MOST_TASKS
    for measure in measures(problem, in_job(first, HAND_OVER) if first else None):
        value, bound = measure.of(places), measure.least(begin)
        if value > bound and searched and not interrupted:
            from sequencer.solve.search_several import minimise

            told(f"looking for a better order of the jobs: {measure.name}")
            found = minimise(problem, measure, kept, begin, places, HAND_OVER_EFFORT * effort)
            places, value, bound = found.places or places, found.value, found.bound
            interrupted = found.interrupted
        kept.append((measure, value))
        goals.append(GoalReached(measure.name, value, min(value, bound)))
    behind: tuple[GoalReached, ...] = ()
    if searched and tidy and not interrupted:
        told("hand-overs are settled")
        settled = _tidied(problem, places, effort, told)
        places, behind, interrupted = settled.places, settled.goals, settled.interrupted
    return _answers(problem, places, tuple(goals), behind, begin, released, interrupted)


def _tidied(problem: Problem, places: list[int], effort: float, told: Tell) -> Settled:
    """A plan at least as good by the goals behind hand-over, every job handed over in the half-day it has."""
    from sequencer.solve.search_goals import settle

    within = Range(problem, len(problem.starts[problem.hand_over]) - 1, kept_half_days(problem, places))
    return settle(within, places, TIDY * effort, told)


def _first_plan(
    network: Network, by_itself: Mapping[str, Alone], effort: float, told: Tell, first: str | None
) -> tuple[Problem, list[int], tuple[str, ...]]:
    """A plan by list passes, jobs in one order after the other; else whatever the solver finds, visits given up."""
    behind = min(len(network.ends) - 1, 2) * FIRST_LOOK // 2
    reach = FIRST_LOOK + behind + max(end.half_days[0] for end in network.ends) - network.start
    until = min(network.start + reach, network.horizon)
    while True:
        problem = with_ends(lay(network, until), network)
        places = _passed(problem, by_itself, first)
        if places is not None:
            return problem, places, ()
        if until == network.horizon:
            break
        until = min(2 * until - network.start, network.horizon)
    answer = solve(network, effort, told)
    problem = with_ends(lay(network.without_bookings(answer.released), network.horizon), network)
    slots = [(answer.starts[id] - problem.base) // problem.slot for id in problem.ids]
    found = [int(starts.searchsorted(slot)) for starts, slot in zip(problem.starts, slots, strict=True)]
    return problem, found, answer.released


def _floors(by_itself: Mapping[str, Alone]) -> dict[str, int]:
    """The half-days before which no plan hands over, by the tasks of hand-over."""
    return {in_job(name, HAND_OVER): alone.half_day for name, alone in by_itself.items()}


def _passed(problem: Problem, by_itself: Mapping[str, Alone], first: str | None) -> list[int] | None:
    """The best plan of the list passes, as the measures have it."""
    if not all(map(len, problem.starts)):
        return None
    begin = first_places(problem, _floors(by_itself))
    latest = [_latest_starts(problem, by) for by in ({}, promised(problem, begin), begin)]
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


def _latest_starts(problem: Problem, by: Mapping[int, int]) -> list[float] | None:
    """The latest start of every task with hand-overs at or before these places (slots); None if that cannot be."""
    trimmed = trim(problem, len(problem.starts[problem.hand_over]) - 1, by)
    if trimmed is None:
        return None
    return [float(starts[place]) for starts, place in zip(problem.starts, trimmed.last, strict=True)]


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


def _answers(
    problem: Problem,
    places: list[int],
    goals: tuple[GoalReached, ...],
    behind: tuple[GoalReached, ...],
    begin: Mapping[int, int],
    released: tuple[str, ...],
    interrupted: bool,
) -> AnswerOfAll:
    """The answers job by job; where the goals of all jobs are proven, each counts as proven beside the others."""
    settled = all(goal.value <= goal.bound for goal in goals)
    slots = [int(starts[place]) for starts, place in zip(problem.starts, places, strict=True)]
    later = slips(problem, places)
    found: dict[str, Answer] = {}
    for end in problem.ends:
        name = own_id(problem.ids[end.task])[0]
        mine = {own_id(id)[1]: task for task, id in enumerate(problem.ids) if own_id(id)[0] == name}
        value = int(end.half_day[places[end.task]])
        bound = value if settled else min(value, int(end.half_day[begin[end.task]]))
        at_best = slots[end.task] if settled else min(slots[end.task], int(problem.starts[end.task][begin[end.task]]))
        found[name] = Answer(
            starts={id: problem.minute(slots[task]) for id, task in mine.items()},
            goals=(GoalReached(HAND_OVER_GOAL, value, bound),),
            hand_over_at_best=problem.minute(at_best),
            slips={id: problem.slot * later[task] for id, task in mine.items()},
            released=tuple(own_id(id)[1] for id in released if own_id(id)[0] == name),
            interrupted=interrupted,
        )
    return AnswerOfAll(found, goals, behind, interrupted)
