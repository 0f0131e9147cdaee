"""Which way a recipe is done in a room, and what the job says its ways cost there."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from sequencer.files.fields import gathered, place_of, text_of
from sequencer.files.sources import Sources
from sequencer.files.tree import Table, Text
from sequencer.files.way_model import parse_costs
from sequencer.files.wrong import nearest
from sequencer.terms.place import Fault
from sequencer.terms.recipe import Costs, Named, Way

HERE = "this job"
"""The source of a number of a job that names none."""

OwnCosts = Costs | dict[str, Costs]
"""Of the way used, or of ways by name."""


def own_costs(node: Any, context: dict[str, Any]) -> OwnCosts:
    """`85 more`, or `{rapid: 85 more}`."""
    sources = Sources({}, HERE)
    if not isinstance(node, Table):
        return parse_costs(text_of(node), sources)
    table = node

    def one(key: Text) -> tuple[str, Costs]:
        text = text_of(table[key])
        costs = parse_costs(text, sources)
        return str(key), replace(costs, place=place_of(key))

    return dict(gathered(one, table.texts()))


def way_chosen(used: Named | None, recipe: str, ways: list[str], faults: list[Fault]) -> str | None:
    """The way of a recipe that is used; None, and a fault, if it has no such way."""
    if used is None or used.word in ways:
        return used.word if used is not None else None
    if ways:
        faults.append(Fault(used.place, f'"{used.word}" is no way of doing "{recipe}"', nearest(used.word, ways)))
    else:
        what = f'"{recipe}" is done in one way only'
        faults.append(Fault(used.place, what, "leave out use:, or add ways: to a recipe of your own"))
    return None


def with_own_costs(
    ways: tuple[Way, ...], own: OwnCosts | None, used: Named | None, faults: list[Fault]
) -> tuple[Way, ...]:
    """The ways with the costs the job gives them."""
    if own is None:
        return ways
    names = [way.name for way in ways]
    if isinstance(own, Costs):
        if used is None:
            faults.append(Fault(own.place, "this does not say which way costs that", "add use: and the way before it"))
            return ways
        own = {used.word: own} if used.word in names else {}
    for name, costs in own.items():
        if name not in names:
            faults.append(Fault(costs.place, f'"{name}" is no way of doing this', nearest(name, names)))
    return tuple(replace(way, costs=own.get(way.name, way.costs)) for way in ways)
