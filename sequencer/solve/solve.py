"""Solves a network goal by goal: list passes first, then CP-SAT until each goal is proven or its effort is spent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

from sequencer.network.model import AllowedStarts, Network
from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.grid import lay
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.solve.trim import trim
from sequencer.terms.minute import DAY

FIRST_LOOK = 70 * DAY
"""How far the first try looks [min]; doubled until a plan fits or the calendars end. A matter of speed alone."""

PASSES = 30
"""List passes tried before the solver starts. A matter of speed alone."""

BEYOND = 21 * DAY
"""How much later than without firm visits a plan that keeps some of them may hand over [min]."""

HAND_OVER_EFFORT, SOONEST_EFFORT = 20.0, 6.0
"""Limits of the two searches [deterministic seconds of the solver]."""

HAND_OVER_GOAL, SOONEST_GOAL = "hand-over", "everything as early as it can be"

Tell = Callable[[str], None]


def first_answer(network: Network) -> Answer:
    """A plan by one list pass alone, nothing proven. NoAnswer if it finds none."""
    problem, places, stuck = _look(network, passes=1)
    if places is None:
        raise NoAnswer(False, stuck)
    earliest = trim(problem, places[problem.hand_over])
    half_day = int(problem.half_day[places[problem.hand_over]])
    bound = int(problem.half_day[earliest.first[problem.hand_over]]) if earliest else half_day
    return _answer(problem, places, (GoalReached(HAND_OVER_GOAL, half_day, bound),))


def solve(network: Network, effort: float = 1.0, told: Tell = lambda _: None) -> Answer:
    """Times for every task; `effort` scales the solver's limits. NoAnswer if no times fit or none were found.

    One worker, a fixed seed and limits that count work, not time: the same network gives the same answer.
    """
    from sequencer.solve.search import minimise_half_day, minimise_starts

    problem, places, stuck = _look(network, PASSES)
    told("looking for the earliest hand-over")
    reached = minimise_half_day(problem, places, HAND_OVER_EFFORT * effort)
    if reached.places is None:
        if problem.booked:
            return _give_up_visits(network, effort, told, stuck)
        raise NoAnswer(reached.certain, stuck)
    told("hand-over is settled; moving everything as early as it can be")
    soonest = minimise_starts(problem, reached.places, SOONEST_EFFORT * effort)
    goals = (
        GoalReached(HAND_OVER_GOAL, reached.value, reached.bound),
        GoalReached(SOONEST_GOAL, soonest.value, soonest.bound),
    )
    return _answer(problem, soonest.places or reached.places, goals)


def _look(network: Network, passes: int) -> tuple[Problem, list[int] | None, tuple[str, ...]]:
    """The problem as far as a list pass needs, with its best plan; else all of it and who was stuck."""
    reach = FIRST_LOOK
    while True:
        until = min(network.start + reach, network.horizon)
        problem = lay(network, until)
        places, stuck = _best_pass(problem, passes)
        if places is not None or until == network.horizon:
            return problem, places, tuple(problem.ids[task] for task in stuck)
        reach *= 2


def _best_pass(problem: Problem, passes: int) -> tuple[list[int] | None, tuple[int, ...]]:
    """The earliest hand-over among passes by latest start, then by shaken latest starts; or the tasks left over."""
    empty = tuple(i for i, starts in enumerate(problem.starts) if not len(starts))
    trimmed = None if empty else trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return None, empty
    latest = [float(starts[last]) for starts, last in zip(problem.starts, trimmed.last, strict=True)]
    shaken, machine = Random(1), ListPass(problem)
    best: list[int] | None = None
    stuck: set[int] = set()
    width = max(latest) - min(latest)
    for number in range(passes):
        shake = 0.0 if number == 0 else 0.1 * width
        found = machine.run([value + shaken.uniform(-shake, shake) for value in latest])
        if isinstance(found, Stuck):
            stuck.add(found.task)
        elif best is None or found[problem.hand_over] < best[problem.hand_over]:
            best = found
    return best, tuple(sorted(stuck))


def _give_up_visits(network: Network, effort: float, told: Tell, stuck: tuple[str, ...]) -> Answer:
    """Solves again with the fewest firm visits given up, as far as three weeks past the plan without any shows."""
    from sequencer.solve.search import fewest_released

    told("not every firm visit fits; looking for the fewest to give up")
    booked = {rule.task: rule.booking for rule in network.of(AllowedStarts) if rule.booking is not None}
    free, places, _ = _look(network.without_bookings(tuple(booked)), PASSES)
    if places is None:
        raise NoAnswer(False, stuck)
    firm = lay(network, network.horizon).booked
    latest = max(int(free.starts[free.hand_over][places[free.hand_over]]), *firm.values()) + BEYOND // free.slot
    given_up = fewest_released(free, firm, latest, HAND_OVER_EFFORT * effort)
    if given_up is None:
        raise NoAnswer(False, stuck)
    released = tuple(free.ids[task] for task in given_up)
    return replace(solve(network.without_bookings(released), effort, told), released=released)


def _answer(problem: Problem, places: list[int], goals: tuple[GoalReached, ...]) -> Answer:
    slots = [int(starts[place]) for starts, place in zip(problem.starts, places, strict=True)]
    at_best = int(problem.half_day.searchsorted(goals[0].bound))
    sooner = min(int(problem.starts[problem.hand_over][at_best]), slots[problem.hand_over])
    if goals[0].value == goals[0].bound:
        sooner = slots[problem.hand_over]
    starts = {id: problem.minute(slot) for id, slot in zip(problem.ids, slots, strict=True)}
    later = {id: problem.slot * slots for id, slots in zip(problem.ids, slips(problem, places), strict=True)}
    return Answer(starts, goals, problem.minute(sooner), later)
