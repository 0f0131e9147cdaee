"""Steps that wait for each other in a circle."""

from __future__ import annotations

from collections import deque

from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job
from sequencer.terms.place import Fault, Place


def circles(job: Job, places: dict[str, Place]) -> list[Fault]:
    """One fault for each knot of steps that wait for each other: its shortest circle, members in order."""
    waits_for: dict[str, dict[str, Hearing]] = {step.id: {} for step in job.steps}
    for hearing in hearings(job):
        waits_for[hearing.listener.id].setdefault(hearing.giver.id, hearing)
    return [_fault(job, circle, waits_for, places) for circle in _shortest(waits_for)]


def _shortest(waits_for: dict[str, dict[str, Hearing]]) -> list[list[str]]:
    left = _knotted(waits_for)
    found: list[list[str]] = []
    while left:
        circle = min((way for id in sorted(left) if (way := _back_to(id, waits_for, left))), key=len, default=None)
        if circle is None:
            break
        found.append(circle)
        left -= _reach(circle[0], waits_for, left)
    return found


def _knotted(waits_for: dict[str, dict[str, Hearing]]) -> set[str]:
    """The steps left when every step that waits for nothing left, or that nothing left waits for, is taken away."""
    left = set(waits_for)
    while True:
        heard = {giver for id in left for giver in waits_for[id]}
        loose = {id for id in left if id not in heard or not (waits_for[id].keys() & left)}
        if not loose:
            return left
        left -= loose


def _reach(start: str, waits_for: dict[str, dict[str, Hearing]], within: set[str]) -> set[str]:
    found, todo = {start}, [start]
    while todo:
        new = (waits_for[todo.pop()].keys() & within) - found
        found |= new
        todo.extend(new)
    return found


def _back_to(start: str, waits_for: dict[str, dict[str, Hearing]], within: set[str]) -> list[str] | None:
    """The shortest way from a step along its waits back to itself."""
    came: dict[str, str] = {}
    todo = deque([start])
    while todo:
        at = todo.popleft()
        for giver in waits_for[at]:
            if giver == start:
                way = [at]
                while way[-1] != start:
                    way.append(came[way[-1]])
                return way[::-1]
            if giver in within and giver not in came:
                came[giver] = at
                todo.append(giver)
    return None


def _fault(job: Job, circle: list[str], waits_for: dict[str, dict[str, Hearing]], places: dict[str, Place]) -> Fault:
    links = [waits_for[id][giver] for id, giver in zip(circle, [*circle[1:], circle[0]], strict=True)]
    own = [link.where for link in links if link.where.file == job.place.file]
    place = min(own) if own else min(places[id] for id in circle)
    told = ", ".join(f"{link.listener.id} waits for {link.giver.id}{_because(link)}" for link in links)
    return Fault(place, f"these steps wait for each other in a circle: {told}", "take one of these waits away")


def _because(link: Hearing) -> str:
    if link.reason == "recipe":
        return ""
    return " (your order)" if link.reason == "my order" else f' ("{link.reason}")'
