"""Better list plans by small changes of the priority: a thread moved forward or back, some of its steps shaken."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.problem import Problem

THREAD_APART, MOVED, AFRESH = 0.05, 0.1, 0.5
SPREADS, SHARES = (0.02, 0.05, 0.1, 0.2), (0.05, 0.1, 0.3)
"""Distance of threads at first, spread of a thread's move and of a step's, as parts of the plan's length; share of
changes that begin afresh, and of shaken steps. A matter of speed alone."""

Priority = list[float]


def improve(
    problem: Problem,
    bases: list[Priority],
    passes: int,
    enough: Callable[[list[int]], bool],
    worth: Callable[[list[int]], int] | None = None,
) -> tuple[list[int] | None, tuple[int, ...]]:
    """The earliest hand-over found in so many passes, and the tasks that found no place in those that failed.

    The first passes go by the bases and by their threads, each later one by a change of the last base or of the best so
    far; as good is good enough to go on from, and `enough` ends it. The same input gives the same plan. `worth`: what is
    to be small instead of the start of hand-over.
    """
    machine, random, stuck = ListPass(problem), Random(1), set[int]()
    value = worth or (lambda places: places[problem.hand_over])
    tries = [*bases, *_by_thread(bases[-1], machine.thread)]
    current, best = tries[-1], None
    for number in range(passes):
        if number < len(tries):
            priority = tries[number]
        else:
            source = tries[-1] if random.random() < AFRESH else current
            priority = _changed(source, machine.thread, random)
        found = machine.run(priority)
        if isinstance(found, Stuck):
            stuck.add(found.task)
        elif best is None or value(found) <= value(best):
            current, best = priority, found
            if enough(found):
                break
    return best, tuple(sorted(stuck))


def _by_thread(base: Priority, thread: list[int]) -> list[Priority]:
    """A priority with one thread behind another; none where all hangs together."""
    if max(thread) < 2:
        return []
    apart = THREAD_APART * (max(base) - min(base))
    return [[value + apart * thread[task] for task, value in enumerate(base)]]


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
