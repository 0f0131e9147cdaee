"""Whether hand-over can come in an earlier half-day, and how early: asked for that alone, far quicker than a plan."""

from __future__ import annotations

from bisect import bisect_right

from sequencer.network.ahead import ahead
from sequencer.network.model import Network
from sequencer.solve.answer import Answer, GoalReached, NoAnswer
from sequencer.solve.bounds.least import by_load, may_be_by
from sequencer.solve.bounds.loads import loads
from sequencer.solve.grid import lay
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.look import Look, looked_into, passed
from sequencer.solve.problem import Problem
from sequencer.solve.solve import MOST_TASKS, PASSES
from sequencer.solve.trim import Trimmer
from sequencer.terms.goal import HAND_OVER_GOAL
from sequencer.terms.minute import Minute

AT_A_GLANCE, ANY_EFFORT = 0.3, 7.0
"""Limits of the solver where list passes found no plan: ruling all out, and looking for one [its deterministic
seconds]."""


def earliest_before(network: Network, than: Minute, effort: float) -> Answer:
    """The earliest hand-over in a half-day before that of a moment, of no other goal; `slips` are not worked out.

    NoAnswer if there is none, `certain` if that is proven. What path and load rule out costs no search.
    """
    network = ahead(network)
    begun = bisect_right(network.half_days, than)
    problem = lay(network, network.half_days[begun - 1] if begun else network.start)
    weights = loads(network)
    if not all(len(starts) for starts in problem.starts) or not may_be_by(
        Trimmer(problem), int(problem.half_day[-1]), by_load(problem, weights)
    ):
        raise NoAnswer(True, ())
    look = passed(problem, weights, PASSES)
    if look.places is not None and problem.half_day_of(look.places) <= look.bound:
        return _answer(problem, look.places, look.bound)
    return _searched(problem, look if look.places is None else looked_into(network, look), effort)


def _searched(problem: Problem, look: Look, effort: float) -> Answer:
    """Where list passes do not reach what path and load allow the solver goes on, if its model is not too large."""
    places, bound = look.places, look.bound
    if len(problem.ids) <= MOST_TASKS:
        from sequencer.solve.hand_over import earliest
        from sequencer.solve.search import minimise_half_day, ruled_out

        if places is not None:
            found = earliest(problem, places, effort, bound)
        elif ruled_out(problem, AT_A_GLANCE * effort):
            raise NoAnswer(True, look.stuck)
        else:
            found = minimise_half_day(problem, None, ANY_EFFORT * effort, bound)
        if found.interrupted:
            raise KeyboardInterrupt
        if found.places is None:
            raise NoAnswer(found.certain, look.stuck)
        places, bound = found.places, max(bound, found.bound)
    if places is None:
        raise NoAnswer(False, look.stuck)
    return _answer(problem, _drawn_up(problem, places), bound)


def _drawn_up(problem: Problem, places: list[int]) -> list[int]:
    """A plan of the same half-day in which no step waits for nothing."""
    starts = list(map(float, problem.slots(places)))
    again = ListPass(problem).run(starts)
    return places if isinstance(again, Stuck) or problem.half_day_of(again) > problem.half_day_of(places) else again


def _answer(problem: Problem, places: list[int], bound: int) -> Answer:
    value = problem.half_day_of(places)
    starts = dict(zip(problem.ids, map(problem.minute, problem.slots(places)), strict=True))
    goal = GoalReached(HAND_OVER_GOAL, value, min(value, bound))
    return Answer(starts, (goal,), starts[problem.ids[problem.hand_over]], {})
