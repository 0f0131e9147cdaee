"""Solves a network goal by goal: list passes first, then CP-SAT until each goal is proven or its effort is spent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from sequencer.network.model import AllowedStarts, Network
from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.loads import Load, least_half_day, loads
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.solve.trim import trim
from sequencer.terms.minute import DAY

FIRST_LOOK = 70 * DAY
"""How far the first try looks [min]; doubled until a plan fits or the calendars end. A matter of speed alone."""

PASSES, MANY_PASSES = 60, 300
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
    look = _look(network, passes=1)
    if look.places is None:
        raise NoAnswer(False, look.stuck)
    return _answer(look.problem, look.places, (_goal(look.problem, look.places, look.bound),))


def solve(network: Network, effort: float = 1.0, told: Tell = lambda _: None) -> Answer:
    """Times for every task; `effort` scales the limits. NoAnswer if no times fit or none were found.

    One worker, a fixed seed and limits that count work, not time: the same network gives the same answer. Beyond
    `MOST_TASKS` the solver is left out: list passes and bounds alone.
    """
    many = len(network.tasks) > MOST_TASKS
    look = _look(network, round(MANY_PASSES * effort) if many else PASSES)
    if look.places is None:
        look = _search_blind(network, effort, look.stuck)
        if look.places is None:
            return _give_up_visits(network, effort, told, look.stuck)
    problem, places = look.problem, look.places
    goal = _goal(problem, places, look.bound)
    if many:
        return _answer(problem, places, (goal,))
    from sequencer.solve.search import minimise_half_day, minimise_starts

    if goal.value > goal.bound:
        told("looking for an earlier hand-over")
        reached = minimise_half_day(problem, places, HAND_OVER_EFFORT * effort, goal.bound)
        places = reached.places or places
        goal = GoalReached(HAND_OVER_GOAL, reached.value, max(reached.bound, goal.bound))
        if reached.interrupted:
            return replace(_answer(problem, places, (goal,)), interrupted=True)
    told("hand-over is settled; moving everything as early as it can be")
    soonest = minimise_starts(problem, places, SOONEST_EFFORT * effort)
    goals = (goal, GoalReached(SOONEST_GOAL, soonest.value, soonest.bound))
    return replace(_answer(problem, soonest.places or places, goals), interrupted=soonest.interrupted)


def _goal(problem: Problem, places: list[int], bound: int) -> GoalReached:
    value = int(problem.half_day[places[problem.hand_over]])
    return GoalReached(HAND_OVER_GOAL, value, min(value, bound))


@dataclass(frozen=True)
class _Look:
    """A problem as far as it was looked at, the best plan found (None: none) and its bound in half-days.

    `stuck`: ids of the tasks that found no place where no plan was found.
    """

    problem: Problem
    places: list[int] | None
    bound: int
    stuck: tuple[str, ...]


def _look(network: Network, passes: int) -> _Look:
    """As far as list passes need to find a plan; else to the end of the calendars."""
    reach, weights = FIRST_LOOK, loads(network)
    while True:
        until = min(network.start + reach, network.horizon)
        look = _passed(lay(network, until), weights, passes)
        if look.places is not None or until == network.horizon:
            return look
        reach *= 2


def _passed(problem: Problem, weights: list[Load], passes: int) -> _Look:
    """The best of so many list passes: by latest start as seen from the horizon, then as seen from the bound."""
    hand_over = problem.hand_over
    empty = tuple(id for id, starts in zip(problem.ids, problem.starts, strict=True) if not len(starts))
    if empty:
        return _Look(problem, None, 0, empty)
    last = int(problem.half_day[-1])
    bound = least_half_day(problem, last, weights)
    bases = [_latest_starts(problem, half_day) for half_day in (last, bound)]
    known = [base for base in bases if base is not None]
    if not known:
        return _Look(problem, None, bound, ())

    def enough(places: list[int]) -> bool:
        return int(problem.half_day[places[hand_over]]) <= bound

    places, stuck = improve(problem, known, passes, enough)
    return _Look(problem, places, bound, tuple(problem.ids[task] for task in stuck))


def _latest_starts(problem: Problem, half_day: int) -> list[float] | None:
    """The latest start of every task with hand-over by a half-day (slots); None if that cannot be."""
    trimmed = trim(problem, int(problem.half_day.searchsorted(half_day, side="right")) - 1)
    if trimmed is None:
        return None
    return [float(starts[place]) for starts, place in zip(problem.starts, trimmed.last, strict=True)]


def _search_blind(network: Network, effort: float, stuck: tuple[str, ...]) -> _Look:
    """Where no list pass finds a plan the solver looks for one, as far as the first look reaches.

    NoAnswer if it finds none, unless firm visits can be given up: then no places.
    """
    from sequencer.solve.search import minimise_half_day

    until = min(network.start + FIRST_LOOK, network.horizon)
    problem = lay(network, until)
    reached = minimise_half_day(problem, None, HAND_OVER_EFFORT * effort)
    if reached.places is None and not problem.booked:
        certain = reached.certain if until == network.horizon else _nothing_left(lay(network, network.horizon))
        raise NoAnswer(certain, stuck)
    return _Look(problem, reached.places, reached.bound, stuck)


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
    without_any = network.without_bookings(tuple(booked))
    look = _look(without_any, PASSES)
    if look.places is None:
        look = _search_blind(without_any, effort, stuck)
    assert look.places is not None
    free, whole = look.problem, lay(network, network.horizon, keep_bookings=False)
    hand_over = free.minute(int(free.starts[free.hand_over][look.places[free.hand_over]]))
    latest = max(hand_over, *map(whole.minute, whole.booked.values())) + BEYOND
    given_up = fewest_released(lay(network, latest, keep_bookings=False), HAND_OVER_EFFORT * effort)
    if not given_up:
        raise NoAnswer(False, stuck)
    released = tuple(whole.ids[task] for task in given_up)
    answer = solve(network.without_bookings(released), effort, told)
    return replace(answer, released=(*released, *answer.released))


def _answer(problem: Problem, places: list[int], goals: tuple[GoalReached, ...]) -> Answer:
    slots = [int(starts[place]) for starts, place in zip(problem.starts, places, strict=True)]
    at_best = int(problem.half_day.searchsorted(goals[0].bound))
    sooner = min(int(problem.starts[problem.hand_over][at_best]), slots[problem.hand_over])
    if goals[0].value == goals[0].bound:
        sooner = slots[problem.hand_over]
    starts = {id: problem.minute(slot) for id, slot in zip(problem.ids, slots, strict=True)}
    later = {id: problem.slot * slots for id, slots in zip(problem.ids, slips(problem, places), strict=True)}
    return Answer(starts, goals, problem.minute(sooner), later)
