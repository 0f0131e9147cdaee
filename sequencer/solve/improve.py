"""Better list plans: pushed against their hand-over and back, from one order of the steps after another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from random import Random

from sequencer.solve.justify import Justifier
from sequencer.solve.list_pass import Stuck
from sequencer.solve.problem import Problem

APART = 0.05
"""Distance of threads in one of the first orders, as a part of the plan's length. A matter of speed alone."""
MOVED, AFRESH = 0.1, 0.1
SPREADS, SHARES = (0.02, 0.05, 0.1, 0.2), (0.05, 0.1, 0.3)
"""Spread of a thread's move and of a step's, as parts of the plan's length; share of changes that begin afresh, and of
shaken steps. A matter of speed alone."""

Priority = list[float]
Places = list[int]


def improve(
    problem: Problem,
    bases: list[Priority],
    passes: int,
    enough: Callable[[Places], bool],
    worth: Callable[[Places], int] | None = None,
) -> tuple[Places | None, tuple[int, ...]]:
    """The earliest hand-over found in so many passes, and the tasks that found no place in those that failed.

    The first plans go by the bases and by their threads, each later one by a change of the best so far; as good is good
    enough to go on from, and `enough` ends it. The same input gives the same plan. `worth`: what is to be small instead
    of the start of hand-over.
    """
    justifier, random, stuck = Justifier(problem), Random(1), set[int]()
    value = worth or (lambda places: places[problem.hand_over])
    orders = _orders(bases, justifier.thread)
    best: Places | None = None
    current = bases[-1]
    while justifier.passes < passes:
        first = next(orders, None)
        priority = first or _changed(bases[-1] if random.random() < AFRESH else current, justifier.thread, random)
        for found in justifier.plans(priority):
            if isinstance(found, Stuck):
                stuck.add(found.task)
            elif best is None or value(found) <= value(best):
                best = found
                current = [float(starts[place]) for starts, place in zip(problem.starts, found, strict=True)]
                if enough(found):
                    return best, tuple(sorted(stuck))
            if justifier.passes >= passes:
                break
    return best, tuple(sorted(stuck))


def _orders(bases: list[Priority], thread: list[int]) -> Iterator[Priority]:
    """The orders to begin with. Of several threads first one behind the other: whole windows for each in its turn."""
    if max(thread) < 2:
        yield from bases
        return
    last = bases[-1]
    whole = 1 + max(last) - min(last)
    yield [value + whole * number for value, number in zip(last, thread, strict=True)]
    yield [value + APART * whole * number for value, number in zip(last, thread, strict=True)]
    yield from bases


def _changed(priority: Priority, thread: list[int], random: Random) -> Priority:
    """A priority with one thread moved, or some steps of one thread shaken."""
    width = max(priority) - min(priority)
    threads = max(thread) + 1
    chosen = random.randrange(threads)
    if threads > 2 and random.random() < 0.5:
        move = random.gauss(0.0, MOVED) * width
        return [value + move * (thread[task] == chosen) for task, value in enumerate(priority)]
    spread, share = random.choice(SPREADS) * width, random.choice(SHARES)
    shaken = [
        (threads <= 2 or thread[task] == chosen) and random.random() < share for task in range(len(priority))
    ]
    return [value + random.gauss(0.0, spread) * shaken[task] for task, value in enumerate(priority)]
