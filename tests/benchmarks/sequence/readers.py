"""Readers of published formats: PSPLIB `.sm`, ProGen/max `.sch`, MPLIB1 `.txt`, calendar-aware JSON.

ValueError for a text that is not such an instance.
"""

from __future__ import annotations

import json
from datetime import date, datetime, timedelta
from itertools import combinations
from pathlib import Path
from typing import Any

from published import Activity, Lag, Project

HOUR = 4
"""Units in an hour of a calendar-aware instance: a quarter of an hour each, tasks rounded up to whole ones."""

DAYS = 400
"""Days laid out of a calendar: far past any of these instances."""


def read(path: Path) -> Project:
    """The instance in a file, by the ending of its name."""
    project = READERS[path.suffix](path.read_text("utf-8"), path.stem)
    for number, activity in enumerate(project.activities):
        if any(need > capacity for need, capacity in zip(activity.needs, project.capacities, strict=True)):
            raise ValueError(f"{path}: activity {number} takes more than there is")
    return project


def read_sm(text: str, name: str) -> Project:
    """PSPLIB, one mode."""
    lines = text.splitlines()

    def after(title: str, skip: int) -> int:
        return next(number for number, line in enumerate(lines) if line.startswith(title)) + skip

    followers: list[list[int]] = []
    for line in _table(lines, after("PRECEDENCE RELATIONS", 2)):
        followers.append([int(word) - 1 for word in line[3:]])
        if int(line[1]) != 1 or len(line) != 3 + int(line[2]):
            raise ValueError(f"{name}: activity {line[0]} has several modes or a wrong number of successors")
    activities = [
        Activity(int(line[2]), tuple(int(word) for word in line[3:]))
        for line in _table(lines, after("REQUESTS/DURATIONS", 3))
    ]
    capacities = tuple(int(word) for word in lines[after("RESOURCEAVAILABILITIES", 2)].split())
    return Project(name, tuple(activities), capacities, _orders(activities, followers))


def _table(lines: list[str], first: int) -> list[list[str]]:
    rows = []
    for line in lines[first:]:
        if line.startswith("*"):
            break
        rows.append(line.split())
    return rows


def _orders(activities: list[Activity], followers: list[list[int]]) -> tuple[Lag, ...]:
    return tuple(
        Lag(before, after, activities[before].length) for before, them in enumerate(followers) for after in them
    )


def read_sch(text: str, name: str) -> Project:
    """ProGen/max, one mode: lags from start to start, negative ones for maximal lags."""
    rows = [line.split() for line in text.splitlines() if line.strip()]
    count = int(rows[0][0]) + 2
    lags = []
    for row in rows[1 : count + 1]:
        number = int(row[2])
        units = [word.strip("[]") for word in row[3 + number :]]
        if int(row[1]) != 1 or len(units) != number:
            raise ValueError(f"{name}: activity {row[0]} has several modes or a wrong number of lags")
        afters = row[3 : 3 + number]
        lags += [Lag(int(row[0]), int(other), int(unit)) for other, unit in zip(afters, units, strict=True)]
    activities = [Activity(int(row[2]), tuple(map(int, row[3:]))) for row in rows[count + 1 : 2 * count + 1]]
    return Project(name, tuple(activities), tuple(map(int, rows[2 * count + 1])), tuple(lags))


def read_mplib(text: str, name: str) -> Project:
    """MPLIB1: several projects on shared resources, all ready at once; one start and one end are put around them."""
    words = iter(text.split())

    def number() -> int:
        return int(next(words))

    projects, kinds = number(), number()
    capacities = tuple(number() for _ in range(kinds))
    nothing = Activity(0, (0,) * kinds)
    activities, edges = [nothing], []
    followers: list[list[int]] = [[]]
    for _ in range(projects):
        count, release = number(), number()
        if release or any(number() != 1 for _ in range(kinds)):
            raise ValueError(f"{name}: a project that is released later, or has resources of its own")
        first = len(activities)
        edges.append((first, first + count - 1))
        for _ in range(count):
            activities.append(Activity(number(), tuple(number() for _ in range(kinds))))
            others = [next(words).split(":") for _ in range(number())]
            if any(int(project) != len(edges) for project, _ in others):
                raise ValueError(f"{name}: an activity that waits for another project")
            followers.append([first + int(other) - 1 for _, other in others])
    followers[0] = [first for first, _ in edges]
    for _, last in edges:
        followers[last] = [len(activities)]
    activities.append(nothing)
    return Project(name, tuple(activities), capacities, _orders(activities, [*followers, []]))


def read_calendar(text: str, name: str) -> Project:
    """Calendar-aware JSON. A task takes one holder of each skill it asks for; all keep the same shifts.

    Work begins on the first Monday after the file was made. Skill levels, efficiencies and chance events are left out.
    """
    said = json.loads(text)
    ids = {task["task_id"]: number for number, task in enumerate(said["tasks"], start=1)}
    asked = sorted({skill for task in said["tasks"] for skill in task["required_skills"]})
    holders = {skill: {r["resource_id"] for r in said["resources"] if skill in r["skills"]} for skill in asked}
    pools = _pools(holders)
    activities = [Activity(0, (0,) * len(pools))]
    for task in said["tasks"]:
        if task["earliest_start"] is not None or task["deadline"] is not None:
            raise ValueError(f"{name}: {task['task_id']} has dates of its own")
        units = -int(-round(HOUR * float(task["duration"]), 6) // 1)
        activities.append(Activity(units, tuple(len(pool & set(task["required_skills"])) for pool in pools)))
    activities.append(activities[0])
    followers: list[list[int]] = [[] for _ in activities]
    for before, after in said["dependencies"]:
        followers[ids[before]].append(ids[after])
    led = {after for them in followers for after in them}
    followers[0] = [number for number in ids.values() if number not in led]
    for number in ids.values():
        followers[number] = followers[number] or [len(activities) - 1]
    capacities = tuple(len(set().union(*(holders[skill] for skill in pool))) for pool in pools)
    made = datetime.fromisoformat(said["generated_at"]).date()
    hours = _open_units(said["calendar_requirements"], made + timedelta(days=-made.weekday() % 7))
    return Project(name, tuple(activities), capacities, _orders(activities, followers), hours)


def _pools(holders: dict[str, set[str]]) -> list[set[str]]:
    """Sets of skills whose holders must suffice for all that ask for any of them (Hall 1935: exactly then somebody can
    be found for each at every moment). Sets that fall into parts without a common holder say nothing new.
    """
    sets = [set(some) for size in range(1, len(holders) + 1) for some in combinations(sorted(holders), size)]
    return [some for some in sets if _hang_together(some, holders)]


def _hang_together(skills: set[str], holders: dict[str, set[str]]) -> bool:
    left = sorted(skills)
    reached = set(holders[left.pop(0)])
    while joined := [skill for skill in left if holders[skill] & reached]:
        for skill in joined:
            reached |= holders[skill]
            left.remove(skill)
    return not left


def _open_units(calendar: dict[str, Any], first: date) -> tuple[int, ...]:
    """The open units of the shifts, counted from the midnight before the first day; the break is closed every day."""
    day_units = 24 * HOUR
    rest = set(range(_unit(calendar["lunch_break"]["start"]), _unit(calendar["lunch_break"]["end"])))
    found: set[int] = set()
    for number in range(DAYS):
        day = first + timedelta(days=number)
        if day.isoformat() in calendar["holidays"]:
            continue
        for shift in calendar["shifts"]:
            begin, end = _unit(shift["start"]), _unit(shift["end"])
            if day.weekday() in shift["days"]:
                units = range(begin, end if end > begin else end + day_units)
                found |= {number * day_units + unit for unit in units if unit % day_units not in rest}
    return tuple(sorted(found))


def _unit(hour: str) -> int:
    hours, minutes = hour.split(":")
    return (60 * int(hours) + int(minutes)) * HOUR // 60


READERS = {".sm": read_sm, ".sch": read_sch, ".txt": read_mplib, ".json": read_calendar}
"""The readers by the ending of a file's name."""
