"""One job with everything a remodeller meets in a bath, and why one of its steps comes before another."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

from sequencer.files import read_job
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.hearing import Hearing, hearings
from sequencer.terms.job import Job

FOLDER = Path(__file__).parent / "data" / "whole-bath"


@cache
def whole_bath() -> Job:
    return read_job(FOLDER, date(2027, 4, 5))


@cache
def first_plan() -> Plan:
    return plan_of(whole_bath(), effort=0)


def cause_of(hearing: Hearing) -> str:
    """A state; "my order", with the later of the two; or a line of a recipe, as its step's name in its recipe."""
    later = hearing.listener
    if hearing.reason == "my order":
        return f"my order: {later.use}"
    if hearing.reason == "recipe":
        return f"line: {later.use}/{later.name}"
    return hearing.reason


def comes_before(earlier: str, later: str, without: str | None = None) -> bool:
    """True if `later` must wait for `earlier`, by any chain that does not use the causes `without` ("one + other")."""
    gone = without.split(" + ") if without else []
    graph: dict[str, set[str]] = {}
    for hearing in _all():
        if cause_of(hearing) not in gone:
            graph.setdefault(hearing.giver.id, set()).add(hearing.listener.id)
    found: set[str] = set()
    todo = [id_of(earlier)]
    while todo:
        new = graph.get(todo.pop(), set()) - found
        found |= new
        todo.extend(new)
    return id_of(later) in found


def id_of(words: str) -> str:
    """The id of a step; in the bathroom unless a room is named."""
    return words if words.count("/") == 2 else f"bathroom/{words}"


@cache
def _all() -> tuple[Hearing, ...]:
    return tuple(hearings(whole_bath()))
