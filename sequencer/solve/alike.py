"""Orders to begin with where there are many rooms: each room as is best for it alone, one behind the other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Sequence
from dataclasses import replace

from sequencer.solve.improve import improve
from sequencer.solve.problem import Group, Problem
from sequencer.solve.threads import threads
from sequencer.solve.trim import latest_starts, trim

MANY = 3
"""Threads from which on there are many rooms: two, and hand-over."""

PASSES_ALONE, SHARE = 400, 0.1
"""List passes for a room alone at most, and the share of all steps placed that goes into rooms alone."""

APART = (1.0, 0.7, 0.85, 0.5)
"""How far rooms are apart, as parts of what lets the last be done at the bound. All of these are a matter of speed."""

Priority = list[float]


def one_behind_another(problem: Problem, half_day: int, passes: int) -> list[Priority]:
    """Orders with the rooms so far apart that the last is handed over about in a half-day; none where rooms are few.

    Rooms that are alike are planned once. `passes`: list passes over the whole problem, of which a share is spent.
    """
    rooms = _rooms(problem)
    if len(rooms) < MANY:
        return []
    first = _first_of_its_kind(problem, rooms)
    allowed = round(SHARE * passes * len(problem.ids) / sum(len(rooms[room]) for room in set(first.values())))
    alone = {one: _alone(problem, rooms[one], max(1, min(PASSES_ALONE, allowed))) for one in set(first.values())}
    order = [0.0] * len(problem.ids)
    behind = [0] * len(problem.ids)
    longest = 0.0
    for number, (room, tasks) in enumerate(rooms.items()):
        starts = alone[first[room]]
        if starts is None:
            return []
        longest = max(longest, starts[-1])
        for task, start in zip(tasks, starts, strict=False):
            order[task], behind[task] = start, number
    by = float(problem.starts[problem.hand_over][problem.half_day.searchsorted(half_day)])
    step = max(0.0, by - longest) / (len(rooms) - 1)
    order[problem.hand_over], behind[problem.hand_over] = longest, len(rooms)
    return [[at + apart * step * number for at, number in zip(order, behind, strict=True)] for apart in APART]


def _rooms(problem: Problem) -> dict[int, list[int]]:
    """The tasks of every thread but that of hand-over."""
    rooms: dict[int, list[int]] = defaultdict(list)
    for task, number in enumerate(threads(problem)):
        if task != problem.hand_over:
            rooms[number].append(task)
    return rooms


def _first_of_its_kind(problem: Problem, rooms: dict[int, list[int]]) -> dict[int, int]:
    """For every thread the first that is like it: the same starts and ties in the same places."""
    room = {task: number for number, tasks in rooms.items() for task in tasks}
    place = {task: at for tasks in rooms.values() for at, task in enumerate(tasks)}
    ties: dict[int, list[Hashable]] = {n: [id(problem.starts[task]) for task in tasks] for n, tasks in rooms.items()}
    for arc in problem.arcs:
        if arc.before in room:
            ties[room[arc.before]].append((place[arc.before], place.get(arc.after), id(arc.release)))
    for window in problem.latests:
        if window.before in room:
            ties[room[window.before]].append((place[window.before], place.get(window.after), id(window.latest)))
    known: dict[Hashable, int] = {}
    return {number: known.setdefault(tuple(said), number) for number, said in ties.items()}


def _alone(problem: Problem, tasks: Sequence[int], passes: int) -> list[float] | None:
    """The starts of a room's tasks, and of hand-over behind them, if there were no other room; None: no plan found."""
    room = _part(problem, [*tasks, problem.hand_over])
    bases = [latest_starts(room, len(room.half_day) - 1)]
    if bases[0] is None:
        return None
    soonest = trim(room, len(room.half_day) - 1)
    if soonest is not None:
        bases.append(latest_starts(room, room.last_place(room.half_day_of(soonest.first))))

    def enough(places: list[int]) -> bool:
        return soonest is not None and room.half_day_of(places) <= room.half_day_of(soonest.first)

    found = improve(room, [base for base in bases if base is not None], passes, enough).places
    return None if found is None else list(map(float, room.slots(found)))


def _part(problem: Problem, tasks: Sequence[int]) -> Problem:
    """The problem of some of its tasks, the last of which is hand-over, with nobody else at work."""
    number = {task: at for at, task in enumerate(tasks)}
    groups = []
    for group in problem.groups:
        claims = tuple(
            replace(claim, task=number[claim.task], last=number[claim.last])
            for claim in group.claims
            if claim.task in number and claim.last in number
        )
        if len(claims) > 1:
            groups.append(Group(group.n, claims))
    return replace(
        problem,
        ids=tuple(problem.ids[task] for task in tasks),
        starts=tuple(problem.starts[task] for task in tasks),
        arcs=tuple(
            replace(arc, before=number[arc.before], after=number[arc.after])
            for arc in problem.arcs
            if arc.before in number and arc.after in number
        ),
        latests=tuple(
            replace(window, before=number[window.before], after=number[window.after])
            for window in problem.latests
            if window.before in number and window.after in number
        ),
        groups=tuple(groups),
        weights=(0,) * len(tasks),
        hand_over=len(tasks) - 1,
        booked={},
        ends=(),
        goals=(),
    )
