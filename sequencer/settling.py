"""A plan in the air that its own layers make: made again until the air it was made in is the air it makes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from sequencer.audit import Times
from sequencer.network.case import Case
from sequencer.network.drying import as_they_dry, covers, dampest, in_rooms, wider
from sequencer.network.too_soon import rooms_too_soon
from sequencer.solve import GoalReached
from sequencer.terms.minute import Minute, Span

ROUNDS, SETTLING, AT_MOST = 4, 8, 24
"""How often a plan is made until its air settles: exactly, and then at least to none that is drier than it makes it.

`SETTLING`: so often for steps that other air begins with; `AT_MOST`: so often for layers, since from `ROUNDS` on the
hours in which they are taken to dry only grow, room by room, and many rooms take long to come to rest.
"""

NOTHING_RULED_OUT = 0
"""The bound of a goal of which nothing is known."""

M = TypeVar("M")
Cases = dict[str, Case]
Goals = tuple[GoalReached, ...]
Make = Callable[[Cases], M]
Sound = Callable[[Cases, M], bool]
TimesOf = Callable[[M], Mapping[str, Times]]


@dataclass(frozen=True)
class Settled(Generic[M]):
    """A plan, and by job the case in the air that the plan's layers make.

    `first`: the plan made as if no layer wetted the air of another step: nothing that it rules out is possible.
    `damper`: jobs whose plan was made in air damper than its layers make it after all. `sound`: whether the plan was
    looked at, and keeps every rule in the air of these cases.
    """

    made: M
    first: M
    cases: dict[str, Case]
    damper: tuple[str, ...]
    sound: bool


def in_own_air(cases: Cases, make: Make[M], times_of: TimesOf[M], sound: Sound[M]) -> Settled[M]:
    """Makes plans until one keeps every rule in the air its own layers make.

    `make` plans the jobs of these cases; `times_of` are its times by the jobs' names; `sound`: whether it keeps every
    rule in the air of other cases. In rooms where it does not, layers are first taken to dry as the plan before had
    them; if that goes round in circles, in all hours that any of the plans had, and at last throughout. Other rooms
    keep the air they were planned in, so that a plan of many rooms comes to rest. What a plan still breaks then it
    breaks for other reasons, and the caller will find it.
    """
    taken, first = dict(cases), make(dict(cases))
    made, kept = first, False
    widened: dict[str, set[str]] = {name: set() for name in cases}
    for again in range(AT_MOST):
        times = times_of(made)
        here = {name: as_they_dry(case, ends(times[name])) for name, case in taken.items()}
        if all(covers(taken[name].drying, here[name].drying) for name in taken):
            break
        off = {
            name: rooms_too_soon(taken[name], case, times[name].pieces, times[name].hand_over)
            for name, case in here.items()
        }
        if not any(off.values()):
            if kept := sound(here, made):
                break
            off = {name: {room.name for room in case.job.rooms} for name, case in here.items()}
        if again + 1 >= ROUNDS:
            widened = {name: rooms | off[name] for name, rooms in widened.items()}
        taken = {name: in_rooms(case, _next(case, here[name], again), off[name]) for name, case in taken.items()}
        made = make(taken)
    damper = [name for name, rooms in widened.items() if not covers(here[name].drying, _in(taken[name], rooms))]
    return Settled(made, first, here, tuple(damper), kept)


def _in(case: Case, rooms: set[str]) -> dict[str, Span]:
    """When layers of some rooms dry."""
    return {id: span for id, span in case.drying.items() if case.job.step(id).room in rooms}


def ends(times: Times) -> dict[str, Minute]:
    """The end of work of every step, by its id."""
    return {id: pieces[-1][1] for id, pieces in times.pieces.items()}


def no_surer(mine: Goals, theirs: Goals) -> Goals:
    """Goals that rule out nothing which others do not rule out: one by one, as long as they agree."""
    goals, agree = [], True
    for number, goal in enumerate(mine):
        other = theirs[number] if agree and number < len(theirs) else None
        goals.append(replace(goal, bound=NOTHING_RULED_OUT if other is None else min(goal.bound, other.bound)))
        agree = other is not None and goal.value == other.value
    return tuple(goals)


def _next(taken: Case, here: Case, again: int) -> Case:
    if again + 1 < ROUNDS:
        return here
    return wider(taken, here) if again + 2 < AT_MOST else dampest(here)
