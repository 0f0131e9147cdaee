"""Better list plans by small changes of the priority: a thread moved forward or back, some of its steps shaken."""

from __future__ import annotations

from random import Random

from sequencer.solve.list_pass import ListPass, Stuck
from sequencer.solve.problem import Problem

THREAD_APART, MOVED, SHAKEN, SHARE = 0.05, 0.1, 0.05, 0.3
"""Distance of threads at first, spread of a thread's move and of a step's, as parts of the plan's length; share of
shaken steps. A matter of speed alone."""

Ranked = tuple[list[float], list[int]]


def improve(problem: Problem, latest: list[float], passes: int) -> tuple[list[int] | None, tuple[int, ...]]:
    """The earliest hand-over found in so many passes, and the tasks that found no place in those that failed.

    The first pass goes by latest start, the second by thread, each later one by a change of the best so far; as good is
    good enough to go on from. The same problem and passes give the same plan.
    """
    machine, random, stuck = ListPass(problem), Random(1), set[int]()
    width = max(latest) - min(latest)
    threads = max(machine.thread) + 1
    apart = [value + THREAD_APART * width * machine.thread[task] for task, value in enumerate(latest)]
    best: Ranked | None = None
    for number in range(passes):
        if number == 0:
            priority = latest
        elif number == 1 and threads > 2:
            priority = apart
        else:
            priority = _changed(best[0] if best else latest, machine.thread, threads, width, random)
        found = machine.run(priority)
        if isinstance(found, Stuck):
            stuck.add(found.task)
        elif best is None or found[problem.hand_over] <= best[1][problem.hand_over]:
            best = (priority, found)
    return (best[1] if best else None), tuple(sorted(stuck))


def _changed(priority: list[float], thread: list[int], threads: int, width: float, random: Random) -> list[float]:
    """A priority with one thread moved, or some steps of one thread shaken."""
    chosen = random.randrange(threads)
    if threads > 2 and random.random() < 0.5:
        move = random.gauss(0.0, MOVED) * width
        return [value + move * (thread[task] == chosen) for task, value in enumerate(priority)]
    return [
        value + random.gauss(0.0, SHAKEN) * width
        if (threads <= 2 or thread[task] == chosen) and random.random() < SHARE
        else value
        for task, value in enumerate(priority)
    ]
