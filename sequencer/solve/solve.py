"""Solves a network goal by goal: list passes first, then CP-SAT until each goal is proven or its effort is spent."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from sequencer.network.ahead import ahead
from sequencer.network.model import AllowedStarts, Network, Window
from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.between import Range, unproven
from sequencer.solve.give_up import GivenUp, given_up
from sequencer.solve.grid import lay
from sequencer.solve.look import FIRST_LOOK, Look, look_at, looked_into
from sequencer.solve.nothing_left import nothing_left
from sequencer.solve.problem import Problem
from sequencer.solve.slip import slips
from sequencer.terms.goal import HAND_OVER_GOAL
from sequencer.terms.minute import DAY, Minute

PASSES, STEPS_PLACED, STEPS_PLACED_NEAR = 60, 500_000, 200_000
"""List passes tried before the solver starts; steps that list passes place instead of it, and where a plan of nearly
the same network is known. A matter of speed alone."""

MOST_TASKS = 250
"""Tasks up to which the solver is asked for a proof; beyond it, its model is too large to bring anything."""

BEYOND = 21 * DAY
"""How much later than without firm visits a plan that keeps some of them may hand over [min]."""

HAND_OVER_EFFORT = 20.0
"""Limit of the search for the hand-over [deterministic seconds of the solver]."""

Tell = Callable[[str], None]


def first_answer(network: Network, near: Mapping[str, Minute] | None = None) -> Answer:
    """A plan by one list pass, by more only where it finds none, its bound by path and load. NoAnswer.

    `near`: the starts of a plan of nearly the same network, whose order is kept, if there is one.
    """
    network = ahead(network)
    look = look_at(network, passes=1, near=near)
    if look.places is None:
        look = look_at(network, PASSES)
    if look.places is None:
        return _first_without_visits(network, look)
    return _answer(look.problem, look.places, (_goal(look.problem, look.places, look.bound),))


def solve(
    network: Network,
    effort: float = 1.0,
    told: Tell = lambda _: None,
    near: Mapping[str, Minute] | None = None,
    tidy: bool = True,
) -> Answer:
    """Times for every task; `effort` scales the limits. NoAnswer if no times fit or none were found.

    Without `tidy` only hand-over counts: enough to know how early it can be.

    One worker, a fixed seed and limits that count work, not time: the same network gives the same answer. Beyond
    `MOST_TASKS` the solver is left out: list passes and bounds alone, from the starts of a plan of nearly the same
    network on (`near`), if there is one.
    """
    network = ahead(network)
    many = len(network.tasks) > MOST_TASKS
    passes = round((STEPS_PLACED_NEAR if near else STEPS_PLACED) * effort / len(network.tasks)) if many else PASSES
    look = look_at(network, passes, told, near if many else None)
    if look.places is None:
        look, certain = _search_blind(network, effort, look)
        if look.places is None:
            return _give_up_visits(network, effort, told, look, certain, tidy)
    elif not look.interrupted:
        look = looked_into(network, look)
    assert look.places is not None
    return _bettered(look, look.places, effort, told, tidy)


def _bettered(look: Look, places: list[int], effort: float, told: Tell, tidy: bool) -> Answer:
    """The best plan found from the one of a first look on."""
    problem, goal = look.problem, _goal(look.problem, places, look.bound)
    if len(problem.ids) > MOST_TASKS:
        answer = _answer(problem, places, (goal, *unproven(_as_early(problem, places), places)))
        return replace(answer, interrupted=look.interrupted)
    if look.interrupted:
        return replace(_answer(problem, places, (goal,)), interrupted=True)
    if goal.value > goal.bound:
        from sequencer.solve.hand_over import earliest

        told("looking for an earlier hand-over")
        reached = earliest(problem, places, effort, goal.bound)
        places = reached.places or places
        goal = GoalReached(HAND_OVER_GOAL, reached.value, max(reached.bound, goal.bound))
        if reached.interrupted:
            return replace(_answer(problem, places, (goal,)), interrupted=True)
    if not tidy:
        return _answer(problem, places, (goal,))
    told("hand-over is settled")
    return _as_good_as_can_be(problem, places, goal, effort, told)


def _as_good_as_can_be(problem: Problem, places: list[int], goal: GoalReached, effort: float, told: Tell) -> Answer:
    """A plan that keeps the hand-over of the one at hand, or an earlier one, by the goals behind it, one by one."""
    from sequencer.solve.search_goals import settle

    settled = settle(_as_early(problem, places), places, effort, told)
    answer = _answer(problem, settled.places, (_goal(problem, settled.places, goal.bound), *settled.goals))
    return replace(answer, interrupted=settled.interrupted)


def _as_early(problem: Problem, places: list[int]) -> Range:
    """The plans that hand over in the half-day of the one at hand, or before."""
    return Range(problem, problem.last_place(problem.half_day_of(places)), {})


def _goal(problem: Problem, places: list[int], bound: int) -> GoalReached:
    value = problem.half_day_of(places)
    return GoalReached(HAND_OVER_GOAL, value, min(value, bound))


def _search_blind(network: Network, effort: float, seen: Look) -> tuple[Look, bool]:
    """Where no list pass finds a plan the solver looks for one, ever farther until the calendars end.

    `seen`: the look that found none, to the end of the calendars. NoAnswer if the solver finds none either, unless firm
    visits can be given up: then no places, and whether it is certain that there are none.
    """
    from sequencer.solve.search import minimise_half_day

    certain, reach = nothing_left(seen.problem), FIRST_LOOK
    while not certain:
        until = min(network.start + reach, network.horizon)
        problem = lay(network, until)
        if all(len(starts) for starts in problem.starts):
            found = minimise_half_day(problem, None, HAND_OVER_EFFORT * effort)
            if found.places is not None:
                here = replace(seen, problem=problem, places=found.places, bound=0, interrupted=found.interrupted)
                return here, False
            if found.interrupted:
                raise KeyboardInterrupt
            certain = found.certain and until == network.horizon
        if until == network.horizon:
            break
        reach *= 2
    if not seen.problem.booked or network.visits_stand:
        raise _none(network, seen, certain)
    return seen, certain


def _none(network: Network, seen: Look, certain: bool) -> NoAnswer:
    """What is said where there is no plan, or none was found: then the windows that list passes kept missing too."""
    windows = {(window.before, window.after): window for window in network.of(Window)}
    return NoAnswer(certain, seen.stuck, () if certain else tuple(windows[tasks] for tasks in seen.missed))


def _give_up_visits(network: Network, effort: float, told: Tell, seen: Look, certain: bool, tidy: bool) -> Answer:
    """Solves again with the fewest firm visits given up, as far as three weeks past the plan without any shows.

    `certain`: there is no plan with all of them. The solver is asked only where list passes and windows do not tell.
    """
    told("not every firm visit fits; looking for the fewest to give up")
    look = look_at(_without_visits(network), PASSES)
    if look.places is None:
        look, _ = _search_blind(_without_visits(network), effort, look)
    booked, latest = _in_sight(network, look)
    found = given_up(network, booked, latest, certain)
    if not found.sure and len(network.tasks) <= MOST_TASKS:
        from sequencer.solve.search import fewest_released

        fewest = fewest_released(lay(network, latest, keep_bookings=False), HAND_OVER_EFFORT * effort)
        if fewest is not None and not fewest.tasks:
            kept = lay(network, latest)
            places = [int(starts.searchsorted(slot)) for starts, slot in zip(kept.starts, fewest.slots, strict=True)]
            return _bettered(Look(kept, places, 0, ()), places, effort, told, tidy)
        if fewest is not None:
            found = GivenUp(tuple(seen.problem.ids[task] for task in fewest.tasks), fewest.fewest)
    answer = solve(network.without_bookings(found.steps), effort, told, tidy=tidy)
    sure = found.sure and not answer.released
    return replace(answer, released=(*found.steps, *answer.released), fewest=sure)


def _first_without_visits(network: Network, seen: Look) -> Answer:
    """A first plan with the few firm visits given up that list passes tell. NoAnswer."""
    if not seen.problem.booked or network.visits_stand:
        raise NoAnswer(False, seen.stuck)
    look = look_at(_without_visits(network), PASSES)
    if look.places is None:
        raise NoAnswer(False, seen.stuck)
    found = given_up(network, *_in_sight(network, look), certain=nothing_left(seen.problem))
    answer = first_answer(network.without_bookings(found.steps))
    sure = found.sure and not answer.released
    return replace(answer, released=(*found.steps, *answer.released), fewest=sure)


def _without_visits(network: Network) -> Network:
    """The network with every firm visit given up."""
    return network.without_bookings(tuple(rule.booking for rule in network.of(AllowedStarts) if rule.booking))


def _in_sight(network: Network, free: Look) -> tuple[dict[str, Minute], Minute]:
    """The moments of the firm visits, and how far a plan without some of them may go; `free`: one without any."""
    assert free.places is not None
    problem, whole = free.problem, lay(network, network.horizon, keep_bookings=False)
    hand_over = problem.minute(int(problem.starts[problem.hand_over][free.places[problem.hand_over]]))
    booked = {whole.ids[task]: whole.minute(slot) for task, slot in whole.booked.items()}
    return booked, max(hand_over, *booked.values()) + BEYOND


def _answer(problem: Problem, places: list[int], goals: tuple[GoalReached, ...]) -> Answer:
    slots = problem.slots(places)
    at_best = int(problem.half_day.searchsorted(goals[0].bound))
    sooner = min(int(problem.starts[problem.hand_over][at_best]), slots[problem.hand_over])
    if goals[0].value == goals[0].bound:
        sooner = slots[problem.hand_over]
    starts = {id: problem.minute(slot) for id, slot in zip(problem.ids, slots, strict=True)}
    later = {id: problem.slot * slots for id, slots in zip(problem.ids, slips(problem, places), strict=True)}
    return Answer(starts, goals, problem.minute(sooner), later)
