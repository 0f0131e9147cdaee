"""Orders to begin with where there are many rooms: each room as is best for it alone, one behind the other."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Hashable, Iterable
from dataclasses import replace
from typing import TypeVar

from sequencer.solve.improve import improve
from sequencer.solve.problem import Arc, Group, Latest, Problem, SlotClaim
from sequencer.solve.threads import threads
from sequencer.solve.trim import latest_starts, trim

MANY = 3
"""Threads from which on there are many rooms: two, and hand-over."""

PASSES_ALONE, SHARE = 400, 0.1
"""List passes for a room alone at most, and the share of all steps placed that goes into rooms alone."""

APART = (1.0, 0.7, 0.85, 0.5)
"""How far rooms are apart, as parts of what lets the last be done at the bound. All of these are a matter of speed."""

Priority = list[float]
T = TypeVar("T", Arc, Latest)


def one_behind_another(problem: Problem, half_day: int, passes: int) -> list[Priority]:
    """Orders with the rooms so far apart that the last is handed over about in a half-day; none where rooms are few.

    Rooms that are alike are planned once. `passes`: list passes over the whole problem, of which a share is spent.
    """
    rooms = _rooms(problem)
    if len(rooms) < MANY:
        return []
    first = _first_of_its_kind(problem, rooms)
    allowed = round(SHARE * passes * len(problem.ids) / sum(len(rooms[room]) for room in set(first.values())))
    parts = _Parts(problem, rooms)
    alone = {one: _alone(parts.of(one), max(1, min(PASSES_ALONE, allowed))) for one in dict.fromkeys(first.values())}
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


def _alone(room: Problem, passes: int) -> list[float] | None:
    """The starts of a room's tasks, and of hand-over behind them, if there were no other room; None: no plan found."""
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


class _Parts:
    """The problem of each room, the last of whose tasks is hand-over, with nobody else at work."""

    def __init__(self, problem: Problem, rooms: dict[int, list[int]]) -> None:
        self.problem, self.rooms = problem, rooms
        self._room = {task: number for number, tasks in rooms.items() for task in tasks}
        self._arcs = self._by_room(problem.arcs)
        self._latests = self._by_room(problem.latests)
        self._claims: dict[int, list[tuple[int, list[SlotClaim]]]] = {number: [] for number in rooms}
        for group in problem.groups:
            claims: dict[int, list[SlotClaim]] = {}
            for claim in group.claims:
                for number in self._rooms_of(claim.task, claim.last):
                    claims.setdefault(number, []).append(claim)
            for number, there in claims.items():
                if len(there) > 1:
                    self._claims[number].append((group.n, there))

    def of(self, room: int) -> Problem:
        """The problem of a room."""
        problem, tasks = self.problem, [*self.rooms[room], self.problem.hand_over]
        number = {task: at for at, task in enumerate(tasks)}
        return replace(
            problem,
            ids=tuple(problem.ids[task] for task in tasks),
            starts=tuple(problem.starts[task] for task in tasks),
            arcs=tuple(Arc(number[arc.before], number[arc.after], arc.release) for arc in self._arcs[room]),
            latests=tuple(Latest(number[one.before], number[one.after], one.latest) for one in self._latests[room]),
            groups=tuple(
                Group(n, tuple(replace(claim, task=number[claim.task], last=number[claim.last]) for claim in claims))
                for n, claims in self._claims[room]
            ),
            weights=(0,) * len(tasks),
            hand_over=len(tasks) - 1,
            booked={},
            ends=(),
            goals=(),
        )

    def _by_room(self, ties: Iterable[T]) -> dict[int, list[T]]:
        found: dict[int, list[T]] = {number: [] for number in self.rooms}
        for tie in ties:
            for number in self._rooms_of(tie.before, tie.after):
                found[number].append(tie)
        return found

    def _rooms_of(self, *tasks: int) -> Collection[int]:
        """The rooms that a rule on these tasks is about: hand-over is in every room."""
        numbers = {self._room[task] for task in tasks if task != self.problem.hand_over}
        return numbers if len(numbers) == 1 else () if numbers else self.rooms
