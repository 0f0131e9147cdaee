"""Checks a plan of a published instance unit by unit, straight from the instance."""

from __future__ import annotations

from bisect import bisect_left

from published import Project


def faults(project: Project, starts: list[int]) -> list[str]:
    """What is wrong with the starts of all activities [clock units]; empty if they are a plan."""
    found = [] if starts[0] == 0 else ["does not begin at 0"]
    worked = [_worked(project, start) for start in starts]
    for number, (start, activity) in enumerate(zip(starts, project.activities, strict=True)):
        if start < 0 or (activity.length and project.open_units is not None and start not in project.open_units):
            found.append(f"activity {number} starts at {start}, when nobody works")
    for lag in project.lags:
        if worked[lag.after] - worked[lag.before] < lag.units:
            found.append(f"activity {lag.after} starts less than {lag.units} after activity {lag.before}")
    for resource, capacity in enumerate(project.capacities):
        taken: dict[int, int] = {}
        for begin, activity in zip(worked, project.activities, strict=True):
            for unit in range(begin, begin + activity.length):
                taken[unit] = taken.get(unit, 0) + activity.needs[resource]
        over = [unit for unit, amount in taken.items() if amount > capacity]
        if over:
            found.append(f"resource {resource}: more than {capacity} taken in unit {min(over)}")
    return found


def _worked(project: Project, start: int) -> int:
    """Open units before a clock unit."""
    return start if project.open_units is None else bisect_left(project.open_units, start)
