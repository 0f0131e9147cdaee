"""Air that begins with the end of a step, set into the lines that hold by date."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sequencer.terms.air import AirSaid, AirStatement, AirSwitch
from sequencer.terms.minute import Minute

OVERLAYS = frozenset({"heated", "dried"})
"""What is laid over the room's air as it is otherwise said: such a line ends others of its kind, and only those."""

_EVER: Minute = -(2**40)


def switched(said: AirSaid) -> tuple[AirStatement, ...]:
    """The statements of a room, those that begin with a step in their place: each line holds until the next."""
    statements = said.statements
    for switch in sorted(said.switches, key=_begins):
        statements = _switch(statements, switch)
    return statements


def _begins(switch: AirSwitch) -> Minute:
    return _EVER if switch.at is None else switch.at


def _switch(statements: tuple[AirStatement, ...], switch: AirSwitch) -> tuple[AirStatement, ...]:
    at = _begins(switch)
    overlay = all(each.how in OVERLAYS for each in switch.statements)
    theirs = [each for each in statements if not overlay or each.how in OVERLAYS]
    ends = min((since for each in statements if (since := _since(each)) > at and _ends(each, overlay)), default=None)
    new = [
        replace(each, start=max(each.start, at), end=each.end if ends is None else min(each.end, ends), since=at)
        for each in switch.statements
    ]
    kept = [
        replace(each, end=min(each.end, at)) if each in theirs and _since(each) <= at else each for each in statements
    ]
    return tuple(_not_empty([*kept, *new]))


def _ends(later: AirStatement, overlay: bool) -> bool:
    """A later line of the room's air ends both kinds, a later overlay ends only overlays."""
    return overlay or later.how not in OVERLAYS


def _since(statement: AirStatement) -> Minute:
    return statement.start if statement.since is None else statement.since


def _not_empty(statements: Iterable[AirStatement]) -> Iterable[AirStatement]:
    return (each for each in statements if each.start < each.end)
