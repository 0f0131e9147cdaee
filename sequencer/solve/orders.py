"""Orders in which a list pass may place the steps: the first ones, and changes of those that led to good plans."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random

import numpy as np
from numpy.typing import NDArray

Priority = list[float]

APART = (1.0, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005)
"""Distances of one thread behind another in the first orders, as parts of the plan's length."""
SPREADS = (0.02, 0.05, 0.1, 0.2)
"""Spread of shaken starts, as parts of the plan's length."""
TAKEN, MOVED, SHAKEN, FEW = 0.3, 0.05, 0.05, 0.05
"""Share of threads taken from another plan; how far one of them is moved, as a part of the plan's length; share of
steps that are moved, and how far, as a part of the order."""
BY_NEED, STRENGTHS = 0.5, (0.1, 0.2, 0.5, 1.0, -0.1)
"""Share of orders with all threads moved, and by what part of how far each lies behind. All of these are a matter of
speed alone."""


def first_orders(bases: Sequence[Priority], thread: Sequence[int]) -> Iterator[Priority]:
    """The orders to begin with: of several threads one behind another, ever nearer; then the bases as they are."""
    last = bases[-1]
    whole = 1 + max(last) - min(last)
    for apart in APART if max(thread) > 1 else ():
        yield [value + apart * whole * number for value, number in zip(last, thread, strict=True)]
    yield from bases


class Orders:
    """New orders from those of good plans; the same ones every time."""

    def __init__(self, thread: Sequence[int], base: Priority) -> None:
        self.thread = thread
        self.threads = 1 + max(thread)
        self.base = base
        self._thread, self._base = np.array(thread), np.array(base)
        self.random = Random(1)

    def next(self, living: Sequence[Sequence[float]], many: int) -> Priority:
        """An order from the starts of good plans, the best first; shaken until there are `many` of them."""
        if not living:
            return self._shaken(self.base)
        if self.threads > 2 and self.random.random() < BY_NEED:
            return self._by_need(self._chosen(living))
        if self.threads > 2:
            return self._by_thread(self._chosen(living), self._chosen(living))
        if len(living) < many:
            return self._shaken(self.base)
        return self._crossed(self._chosen(living), self._chosen(living))

    def behind(self, starts: Sequence[float]) -> float:
        """How far a plan of several threads lies behind the base; of two that are done as early, less is better."""
        return float(np.square(self._late(starts)).sum()) if self.threads > 2 else 0.0

    def _late(self, starts: Sequence[float]) -> NDArray[np.float64]:
        """How much later than in the base each step starts, or nothing."""
        late: NDArray[np.float64] = np.maximum(0.0, np.array(starts) - self._base)
        return late

    def _by_need(self, starts: Sequence[float]) -> Priority:
        """A plan with each thread moved forward the more, the further it lies behind, and now and then the less."""
        most = np.zeros(self.threads)
        np.maximum.at(most, self._thread, self._late(starts))
        strength = self.random.choice(STRENGTHS)
        moved: list[float] = (np.array(starts) - (strength * (most - most.mean()))[self._thread]).tolist()
        return moved

    def _chosen(self, living: Sequence[Sequence[float]]) -> Sequence[float]:
        """The better of two drawn at random."""
        return living[min(self.random.randrange(len(living)), self.random.randrange(len(living)))]

    def _shaken(self, starts: Sequence[float]) -> Priority:
        spread = self.random.choice(SPREADS) * (max(starts) - min(starts))
        return [start + self.random.gauss(0.0, spread) for start in starts]

    def _by_thread(self, one: Sequence[float], other: Sequence[float]) -> Priority:
        """One plan with some threads as another has them, and now and then a thread moved."""
        taken = [self.random.random() < TAKEN for _ in range(self.threads)]
        moved = [0.0] * self.threads
        if self.random.random() < 0.5:
            moved[self.random.randrange(self.threads)] = self.random.gauss(0.0, MOVED) * (max(one) - min(one))
        return [
            (theirs if taken[thread] else mine) + moved[thread]
            for mine, theirs, thread in zip(one, other, self.thread, strict=True)
        ]

    def _crossed(self, one: Sequence[float], other: Sequence[float]) -> Priority:
        """One plan with a stretch of its order as another has it, a few of its steps moved."""
        count = len(one)
        mine, theirs = (sorted(range(count), key=lambda task: (starts[task], task)) for starts in (one, other))
        kept = mine[: self.random.randrange(count)]
        seen = set(kept)
        length = self.random.randrange(count // 4, 1 + 3 * count // 4)
        stretch = [task for task in theirs if task not in seen][:length]
        seen.update(stretch)
        priority = [0.0] * count
        for place, task in enumerate((*kept, *stretch, *(task for task in mine if task not in seen))):
            few = self.random.gauss(0.0, FEW * count) if self.random.random() < SHAKEN else 0.0
            priority[task] = place + few
        return priority
