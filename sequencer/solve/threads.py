"""Threads: tasks that hang together by orders, waits and windows. Rooms that share only people are threads apart."""

from __future__ import annotations

from sequencer.solve.problem import Problem


def threads(problem: Problem) -> list[int]:
    """The number of each task's thread, counted from 0 in the order of the tasks. Hand-over ties nothing together."""
    root = list(range(len(problem.ids)))

    def find(task: int) -> int:
        while root[task] != task:
            root[task] = root[root[task]]
            task = root[task]
        return task

    ties = [(arc.before, arc.after) for arc in problem.arcs] + [(late.before, late.after) for late in problem.latests]
    for before, after in ties:
        if problem.hand_over not in (before, after):
            root[find(before)] = find(after)
    numbers: dict[int, int] = {}
    return [numbers.setdefault(find(task), len(numbers)) for task in range(len(root))]
