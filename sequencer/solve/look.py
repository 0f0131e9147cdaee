"""The first look at a network: how far it must be laid for a list pass to find a plan, the best of many, its bound."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from sequencer.network.model import Network
from sequencer.solve.alike import one_behind_another
from sequencer.solve.bounds.least import by_load, in_depth, least_half_day, may_be_by
from sequencer.solve.bounds.loads import Load, loads
from sequencer.solve.grid import lay
from sequencer.solve.improve import improve
from sequencer.solve.problem import Problem
from sequencer.solve.trim import Trimmer, latest_starts
from sequencer.terms.minute import DAY, Minute

FIRST_LOOK = 70 * DAY
LOADS_LOOKED = 2
"""How far the first try looks [min], and in how many times what the hands alone need; doubled until a plan fits or the
calendars end. A matter of speed alone."""

WINDOWS_NAMED = 3
"""Windows that are named where no plan was found."""


@dataclass(frozen=True)
class Look:
    """A problem as far as it was looked at, the best plan found (None: none) and its bound in half-days.

    `loads`: the work that shares hands. `stuck`: ids of the tasks that found no place where no plan was found;
    `missed`: ids before and after the windows that were missed most often there.
    """

    problem: Problem
    places: list[int] | None
    bound: int
    stuck: tuple[str, ...]
    loads: tuple[Load, ...] = ()
    missed: tuple[tuple[str, str], ...] = ()
    interrupted: bool = False


def look_at(
    network: Network,
    passes: int,
    told: Callable[[str], None] = lambda _: None,
    near: Mapping[str, Minute] | None = None,
) -> Look:
    """As far as list passes need to find a plan; else to the end of the calendars.

    `told` hears of better plans. `near`: the starts of a plan of nearly the same network, by id, to begin with.
    """
    weights = loads(network)
    least = max((load.least(network.start) for load in weights), default=network.start)
    reach = max(FIRST_LOOK, LOADS_LOOKED * (least - network.start))
    while True:
        until = min(network.start + reach, network.horizon)
        look = passed(lay(network, until), weights, passes, told, near)
        if look.places is not None or until == network.horizon:
            return look
        reach *= 2


def passed(
    problem: Problem,
    weights: list[Load],
    passes: int,
    told: Callable[[str], None] = lambda _: None,
    near: Mapping[str, Minute] | None = None,
) -> Look:
    """The best of so many list passes: by latest start as seen from the horizon, then as seen from the bound."""
    empty = tuple(id for id, starts in zip(problem.ids, problem.starts, strict=True) if not len(starts))
    if empty:
        return Look(problem, None, 0, empty)
    last = int(problem.half_day[-1])
    bound = least_half_day(Trimmer(problem), last, by_load(problem, weights))
    bases = [latest_starts(problem, problem.last_place(half_day)) for half_day in (last, bound)]
    known = [base for base in bases if base is not None]
    if not known:
        return Look(problem, None, bound, ())

    def enough(places: list[int]) -> bool:
        return problem.half_day_of(places) <= bound

    def better(places: list[int]) -> None:
        told(f"a plan hands over on day {_day(problem, problem.half_day_of(places))}; {none_before}")

    none_before = f"none can before day {_day(problem, bound)}"
    if near and all(id in near for id in problem.ids):
        begin = [[float(near[id]) for id in problem.ids]]
    else:
        begin = one_behind_another(problem, bound, passes)
    found = improve(problem, known, passes, enough, better=better, begin=begin)
    stuck = tuple(problem.ids[task] for task in sorted(found.stuck))
    often = sorted(found.missed, key=lambda tasks: (-found.missed[tasks], tasks))[:WINDOWS_NAMED]
    missed = tuple((problem.ids[before], problem.ids[after]) for before, after in often)
    return Look(problem, found.places, bound, stuck, tuple(weights), missed, found.interrupted)


def looked_into(network: Network, look: Look) -> Look:
    """The same with the bound of everything that rules days out without a search; a plan at hand is asked for."""
    assert look.places is not None
    value = look.problem.half_day_of(look.places)
    if value <= look.bound:
        return look
    trimmer = Trimmer(look.problem)
    bounds = in_depth(network, trimmer, look.loads)
    if may_be_by(trimmer, look.bound, bounds):
        return look
    return replace(look, bound=least_half_day(trimmer, value, bounds, look.bound))


def _day(problem: Problem, half_day: int) -> int:
    """The day, counted from the first on the grid, on which a half-day's first hand-over lies."""
    first = int(problem.starts[problem.hand_over][problem.half_day.searchsorted(half_day)])
    return 1 + problem.slot * first // DAY
