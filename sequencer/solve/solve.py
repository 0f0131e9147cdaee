"""Solves a network goal by goal: list passes first, then CP-SAT until each goal is proven or its effort is spent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from sequencer.network.model import AllowedStarts, Network
from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.loads import least_half_day, loads
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.solve.trim import trim
from sequencer.terms.minute import DAY

FIRST_LOOK = 70 * DAY
"""How far the first try looks [min]; doubled until a plan fits or the calendars end. A matter of speed alone."""

PASSES, MANY_PASSES = 30, 300
"""List passes tried before the solver starts, and instead of it. A matter of speed alone."""

MOST_TASKS = 250
"""Tasks up to which the solver is asked for a proof; beyond it, its model is too large to bring anything."""

BEYOND = 21 * DAY
"""How much later than without firm visits a plan that keeps some of them may hand over [min]."""

HAND_OVER_EFFORT, SOONEST_EFFORT = 20.0, 6.0
"""Limits of the two searches [deterministic seconds of the solver]."""

HAND_OVER_GOAL, SOONEST_GOAL = "hand-over", "everything as early as it can be"

Tell = Callable[[str], None]


def first_answer(network: Network) -> Answer:
    """A plan by one list pass alone, its bound by path and load. NoAnswer if it finds none."""
    problem, places, stuck = _look(network, passes=1)
    if places is None:
        raise NoAnswer(False, stuck)
    return _answer(problem, places, (_half_day_goal(network, problem, places),))


def solve(network: Network, effort: float = 1.0, told: Tell = lambda _: None) -> Answer:
    """Times for every task; `effort` scales the limits. NoAnswer if no times fit or none were found.

    One worker, a fixed seed and limits that count work, not time: the same network gives the same answer. Beyond
    `MOST_TASKS` the solver is left out: list passes and bounds alone.
    """
    problem, places, stuck = _look(network, PASSES)
    if places is None:
        problem, places = _search_blind(network, effort, stuck)
        if places is None:
            return _give_up_visits(network, effort, told, stuck)
    goal = _half_day_goal(network, problem, places)
    if len(problem.ids) > MOST_TASKS:
        return _improved(network, problem, places, effort, told)
    from sequencer.solve.search import minimise_half_day, minimise_starts

    if goal.value > goal.bound:
        told("looking for an earlier hand-over")
        reached = minimise_half_day(problem, places, HAND_OVER_EFFORT * effort, goal.bound)
        places = reached.places or places
        goal = GoalReached(HAND_OVER_GOAL, reached.value, max(reached.bound, goal.bound))
    told("hand-over is settled; moving everything as early as it can be")
    soonest = minimise_starts(problem, places, SOONEST_EFFORT * effort)
    return _answer(problem, soonest.places or places, (goal, GoalReached(SOONEST_GOAL, soonest.value, soonest.bound)))


def _half_day_goal(network: Network, problem: Problem, places: list[int]) -> GoalReached:
    """How early a plan hands over, and the first half-day that path and load do not rule out."""
    value = int(problem.half_day[places[problem.hand_over]])
    return GoalReached(HAND_OVER_GOAL, value, least_half_day(problem, value, loads(network)))


def _search_blind(network: Network, effort: float, stuck: tuple[str, ...]) -> tuple[Problem, list[int] | None]:
    """Where no list pass finds a plan the solver looks for one, as far as the first look reaches.

    NoAnswer if it finds none, unless firm visits can be given up: then no places.
    """
    from sequencer.solve.search import minimise_half_day

    until = min(network.start + FIRST_LOOK, network.horizon)
    problem = lay(network, until)
    reached = minimise_half_day(problem, None, HAND_OVER_EFFORT * effort)
    if reached.places is None and not problem.booked:
        whole = problem if until == network.horizon else lay(network, network.horizon)
        certain = reached.certain if whole is problem else _nothing_left(whole)
        raise NoAnswer(certain, stuck)
    return problem, reached.places


def _improved(network: Network, problem: Problem, places: list[int], effort: float, told: Tell) -> Answer:
    """The best of many more list passes, for jobs of many rooms."""
    told("many rooms: looking for an earlier hand-over")
    better, _ = _best_pass(problem, round(MANY_PASSES * effort))
    if better is not None and better[problem.hand_over] < places[problem.hand_over]:
        places = better
    return _answer(problem, places, (_half_day_goal(network, problem, places),))


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
    """The earliest hand-over among list passes; or the tasks left over."""
    empty = tuple(i for i, starts in enumerate(problem.starts) if not len(starts))
    trimmed = None if empty else trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return None, empty
    latest = [float(starts[last]) for starts, last in zip(problem.starts, trimmed.last, strict=True)]
    return improve(problem, latest, passes)


def _nothing_left(problem: Problem) -> bool:
    """True if orders, waits and windows alone leave some task no start: then there is no plan."""
    if not all(len(starts) for starts in problem.starts):
        return True
    return trim(problem, len(problem.starts[problem.hand_over]) - 1) is None


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
