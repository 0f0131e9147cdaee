"""Better list plans: orders of the steps are crossed and shaken, each plan pushed against its hand-over and back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from sequencer.solve.justify import Justifier
from sequencer.solve.list_pass import Stuck
from sequencer.solve.orders import Orders, first_orders
from sequencer.solve.problem import Problem

LIVING = 20
"""Plans kept to go on from. A matter of speed alone."""

Priority = list[float]
Places = list[int]
Worth = Callable[[Places], int]


@dataclass
class Improved:
    """The best plan found (None: none), and the tasks that found no place in passes that failed.

    `missed`: how often windows were missed, by the tasks before and after each. `interrupted`: somebody stopped it.
    """

    places: Places | None = None
    stuck: set[int] = field(default_factory=set)
    missed: Counter[tuple[int, int]] = field(default_factory=Counter)
    interrupted: bool = False


def improve(
    problem: Problem,
    bases: Sequence[Priority],
    passes: int,
    enough: Callable[[Places], bool],
    worth: Worth | None = None,
    better: Callable[[Places], None] = lambda _: None,
    begin: Sequence[Priority] = (),
) -> Improved:
    """The plan of the earliest hand-over in so many passes; `enough` ends it, `better` hears of every better one.

    The first plans go by the bases and by their threads, each later one by orders crossed and shaken. The same input
    gives the same plan. `worth`: what is to be small instead of the start of hand-over. `begin`: orders to
    begin with instead, unless none of them leads to a plan.
    """
    search = _Search(problem, passes, enough, worth or (lambda places: places[problem.hand_over]), better)
    try:
        search.run(begin, bases)
    except KeyboardInterrupt:
        if search.found.places is None:
            raise
        search.found.interrupted = True
    return search.found


class _Search:
    def __init__(
        self,
        problem: Problem,
        passes: int,
        enough: Callable[[Places], bool],
        worth: Worth,
        better: Callable[[Places], None],
    ) -> None:
        self.passes, self.enough, self.worth, self.better = passes, enough, worth, better
        self.starts = [problem.lists.of(starts) for starts in problem.starts]
        self.justifier = Justifier(problem)
        self.found = Improved(missed=self.justifier.missed)
        self.living: list[tuple[int, float, list[int]]] = []

    def run(self, begin: Sequence[Priority], bases: Sequence[Priority]) -> None:
        """Plan after plan until the passes are spent or one is good enough."""
        self.change = Orders(self.justifier.thread, bases[-1])
        orders, done = self._first(begin, bases), False
        while not done and self.justifier.passes < self.passes:
            priority = next(orders, None)
            done = self._try(priority or self.change.next([starts for *_, starts in self.living], LIVING))

    def _first(self, begin: Sequence[Priority], bases: Sequence[Priority]) -> Iterator[Priority]:
        yield from begin
        if not self.living:
            yield from first_orders(bases, self.justifier.thread)

    def _try(self, priority: Priority) -> bool:
        """Adds the best plan a priority leads to; True if it is good enough."""
        best: Places | None = None
        for found in self.justifier.plans(priority):
            if isinstance(found, Stuck):
                self.found.stuck.add(found.task)
            elif best is None or self.worth(found) <= self.worth(best):
                best = found
                if self._is_better(found) and self.enough(found):
                    return True
            if self.justifier.passes >= self.passes:
                break
        if best is not None:
            self._keep(best)
        return False

    def _is_better(self, places: Places) -> bool:
        known = self.found.places
        if known is not None and self.worth(places) >= self.worth(known):
            return False
        self.found.places = places
        self.better(places)
        return True

    def _keep(self, places: Places) -> None:
        """Takes a plan among the living, unless it is there already."""
        starts = [starts[place] for starts, place in zip(self.starts, places, strict=True)]
        one = (self.worth(places), self.change.behind(starts), starts)
        if one not in self.living:
            self.living.append(one)
            self.living.sort(key=lambda plan: plan[:2])
            del self.living[LIVING:]
