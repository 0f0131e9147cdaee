"""A list plan pushed against its own hand-over and back again: every step as late as can be, then as soon as can be.

What was early by chance makes room for what decides, so that the plan grows shorter as often as not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from sequencer.solve.claims import Own
from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.mirror import mirrored, places_back
from sequencer.solve.problem import Problem


class Justifier:
    """List passes over a problem, forwards and backwards. `passes`: how many there were; `missed`: windows, by them."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.passes = 0
        self._forwards = ListPass(problem)
        self.thread = self._forwards.thread
        self.missed = self._forwards.missed
        self._ends = [_ends(own, starts) for own, starts in zip(self._forwards.own, self._forwards.starts, strict=True)]

    @cached_property
    def _backwards(self) -> ListPass:
        return ListPass(mirrored(self.problem))

    def plans(self, priority: Sequence[float]) -> Iterator[list[int] | Stuck]:
        """The plan of a priority, then those of pushing it back and forth, as long as each is the shorter."""
        hand_over = self.problem.hand_over
        found = self._run(self._forwards, priority)
        yield found
        while not isinstance(found, Stuck):
            late = self._latest(found)
            if late is None:
                return
            again = self._run(self._forwards, late)
            yield again
            if isinstance(again, Stuck) or again[hand_over] >= found[hand_over]:
                return
            found = again

    def _latest(self, places: list[int]) -> list[int] | None:
        """The start of every step as late as hand-over allows; None if the pass found no plan."""
        problem = self.problem
        turned = places_back(problem, places)
        soonest_last = [-ends[place] for ends, place in zip(self._ends, places, strict=True)]
        found = self._run(self._backwards, soonest_last, {problem.hand_over: turned[problem.hand_over]})
        if isinstance(found, Stuck):
            return None
        late = places_back(problem, found)
        return problem.slots(late)

    def _run(
        self, machine: ListPass, priority: Sequence[float], held: dict[int, int] | None = None
    ) -> list[int] | Stuck:
        self.passes += 1
        return machine.run(priority, held)


def _ends(own: Sequence[Own], starts: Sequence[int]) -> Sequence[int]:
    """The end of a task by its place: of its claims that which ends first, its work; without any, its start."""
    return min((until for _, begin, until, _ in own if begin is starts), key=lambda until: until[0], default=starts)
