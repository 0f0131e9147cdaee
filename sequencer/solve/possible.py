"""Whether a plan exists at all: asked of a network that something was taken away from, far quicker than a plan."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from sequencer.network.ahead import ahead
from sequencer.network.model import Network
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.look import FIRST_LOOK
from sequencer.solve.nothing_left import nothing_left
from sequencer.solve.problem import Problem
from sequencer.solve.round_trip import among
from sequencer.solve.solve import MOST_TASKS
from sequencer.solve.trim import latest_starts, trim

STARTS_A_TASK = 20
"""Starts given to the solver that cost as much as a task that is laid and passed without it; measured."""

ANY = 1 << 50
"""As much work as may be."""

OTHER_ORDERS = 20
"""List passes by other orders, before the solver is asked. A matter of speed alone."""


@dataclass
class Work:
    """Work that is left for questions [tasks laid and passed]: counted, not timed, so that answers are the same
    everywhere. `at_once`: what one question of the solver may take of it. `far`: the last plan lay beyond a first look,
    so that none is taken any more.
    """

    left: int
    at_once: int
    far: bool = False


def fits(network: Network, effort: float, work: Work | None = None, suspects: Collection[str] = ()) -> bool | None:
    """True if some order of work fits all the rules, False if none does, None if effort and work did not tell.

    What is cheap comes first: the orders, waits and windows among suspected tasks (ids), a list pass, then orders,
    waits and windows of all, then more list passes. The solver is asked last, for `effort` [its deterministic seconds],
    and only where the work that is left (None: any) bears its model.
    """
    network = ahead(network)
    work = work or Work(ANY, ANY)
    work.left -= len(suspects)
    if suspects and nothing_left(lay(among(network, suspects), network.horizon)):
        return False
    work.left -= len(network.tasks)
    near = None if work.far else lay(network, network.start + FIRST_LOOK)
    if near and _by_list(near):
        return True
    whole = lay(network, network.horizon)
    if nothing_left(whole):
        return False
    if _by_list(whole):
        work.far = True
        return True
    near = near or lay(network, network.start + FIRST_LOOK)
    return _by_lists(near) or _paid_for(near, effort, work) or _paid_for(whole, effort, work)


def _paid_for(problem: Problem, effort: float, work: Work) -> bool | None:
    """What the solver says where the work that is left bears its model, which is built and simplified uncounted."""
    if not all(len(starts) for starts in problem.starts):
        return False
    trimmed = trim(problem, len(problem.starts[problem.hand_over]) - 1)
    if trimmed is None:
        return False
    price = sum(last - first for first, last in zip(trimmed.first, trimmed.last, strict=True)) // STARTS_A_TASK
    if price > min(work.left, work.at_once):
        return None
    work.left -= price
    return _asked(problem, effort)


def _by_list(problem: Problem) -> bool:
    """True if a list pass finds a plan."""
    latest = _latest(problem)
    return latest is not None and not isinstance(ListPass(problem).run(latest), Stuck)


def _by_lists(problem: Problem) -> bool:
    """True if one of some list passes finds a plan, each by another order."""
    latest = _latest(problem)
    return latest is not None and improve(problem, [latest], OTHER_ORDERS, lambda places: True).places is not None


def _asked(problem: Problem, effort: float) -> bool | None:
    """What the solver says; it is not asked where no start is left, nor of more tasks than it can bear."""
    if _latest(problem) is None:
        return False
    if len(problem.ids) > MOST_TASKS:
        return None
    from sequencer.solve.search import plan_exists

    return plan_exists(problem, effort)


def _latest(problem: Problem) -> list[float] | None:
    """The latest start of every task; None if orders, waits and windows alone leave some task no start."""
    if not all(len(starts) for starts in problem.starts):
        return None
    return latest_starts(problem, len(problem.starts[problem.hand_over]) - 1)
