"""The file of a new job, with a reason beside everything that nobody said."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from sequencer.answers.new_job.build_ups import HELPERS, ORDERS, PEOPLE, Ordered, areas_of, asks, recipes_of
from sequencer.answers.new_job.wishes import RoomWish, Wishes
from sequencer.terms.recipe import Recipe, RecipeStep
from sequencer.terms.words import INSPECTOR, OWN_TRADE

HEAD = (
    "# A job. Everything here may be changed: docs/files.md says what can stand in it,",
    "# `sequencer check` what is wrong, `sequencer plan` what comes of it.",
)
OWN_HOURS: Final = "08:00-16:30, break: 12:00-12:30"
"""Hours of whoever keeps the files; common practice, no source."""

FAN: Final = "85 m3/h"
"""The least a bath fan that is switched on moves; ASHRAE 62.2, 50 cfm, from memory."""

REMARK_AT = 56
"""Column at which a remark begins, if the line leaves it free."""


def job_text(wishes: Wishes, library: Mapping[str, Recipe], at_hand: frozenset[str]) -> str:
    """The text of job.yaml. `library`: the recipes at hand; `at_hand`: people whose hours stand in people.yaml."""
    said = wishes.said
    lines = [*HEAD, "format: 1", f"job: {lasting(said['title'])}", f"title: {_plain(said['title'])}", _place(said)]
    lines += [f"words: {said['words']}", f"start: {said['start']}"]
    if said["promise"] != "none":
        lines.append(f"promise: {said['promise']}")
    lines.append(_remarked("hand over needs: [foot, load, water]", "floor heat and full hardness may come later"))
    lines += ["", *_people(wishes, trades_needed(wishes, library), at_hand), "", *_house(said), ""]
    lines += [f"air: {said['air']}", "", "rooms:"]
    for room in wishes.rooms:
        lines += _room(wishes, room, library)
    return "\n".join((*lines, *_orders(wishes), ""))


def _place(said: Mapping[str, str]) -> str:
    if said["holidays"] == "none":
        return _remarked(f"place: {{zone: {said['zone']}}}", "no holidays: CA BC or the like, so all are working days")
    return f"place: {{zone: {said['zone']}, holidays: {said['holidays']}}}"


def lasting(title: str) -> str:
    """A lasting name made of a title."""
    return "-".join(re.findall(r"[a-z0-9]+", title.lower())) or "job"


def _plain(text: str) -> str:
    return text if re.fullmatch(r"[\w ,.()/'-]+", text) else '"' + text.replace("\\", "").replace('"', "'") + '"'


def _remarked(text: str, remark: str) -> str:
    return f"{text:{REMARK_AT}} # {remark}"


def trades_needed(wishes: Wishes, library: Mapping[str, Recipe]) -> tuple[str, ...]:
    """Who does the steps of the job, whoever keeps the files first."""
    names = dict.fromkeys(name for room in wishes.rooms for name in recipes_of(room))
    steps = [step for name in names if name in library for step in library[name].steps]
    trades = dict.fromkeys((OWN_TRADE, *(step.trade for step in steps)))
    if wishes.looks_itself:
        trades.pop(INSPECTOR, None)
    alone = not wishes.helper and any(_too_much_alone(step) for step in steps)
    return (*trades, HELPERS) if alone else tuple(trades)


def _people(wishes: Wishes, trades: tuple[str, ...], at_hand: frozenset[str]) -> list[str]:
    lines = ["people:"]
    for trade in trades:
        if trade in wishes.people:
            lines.append(f"  {trade}: {{{wishes.people[trade]}}}")
        elif trade == OWN_TRADE:
            lines += _own(wishes, trade in at_hand)
        elif trade not in at_hand:
            usual = PEOPLE[trade]
            lines.append(_remarked(f"  {trade}: {{{usual.words}}}", usual.reason))
    return lines if len(lines) > 1 else []


def _own(wishes: Wishes, at_hand: bool) -> list[str]:
    if at_hand and not wishes.saturday and not wishes.helper:
        return []
    said = [f"days: {'Mon to Sat' if wishes.saturday else 'Mon to Fri'}"]
    said += [] if at_hand else [f"hours: {OWN_HOURS}"]
    said += ["hands: 2"] if wishes.helper else []
    return [f"  {OWN_TRADE}: {{{', '.join(said)}}}"]


def _house(said: Mapping[str, str]) -> list[str]:
    if said["lived-in"] != "yes":
        return ["house:", "  people live here: no"]
    return [
        "house:",
        _remarked("  people live here: yes", "what takes water or power off is back the same day"),
        _remarked("  noise: 08:00-17:00", "ask the neighbours, or the house rules"),
    ]


def _room(wishes: Wishes, room: RoomWish, library: Mapping[str, Recipe]) -> list[str]:
    lines = [f"  {room.name}:", *([f"    title: {_plain(room.title)}"] if room.title not in ("", room.name) else [])]
    lines.append(f"    size: {room.size}")
    if areas := areas_of(room):
        lines.append(_remarked(f"    areas: {{{areas}}}", "measure yours; the rest follows from the size"))
    lines.append(_remarked(f"    fan: {FAN}", "on while layers dry, or a window: they wet their own room"))
    if wishes.helper:
        lines.append(_remarked("    at once: 2", "two pairs of hands"))
    lines.append("    recipes:")
    for name in recipes_of(room):
        options = [f"use: {wishes.ways[room.name, name]}"] if (room.name, name) in wishes.ways else []
        options += _changes(wishes, library.get(name))
        if order := asks(room, name):
            options.append(order)
        lines.append(f"      {name}: {{{', '.join(options)}}}" if options else f"      {name}:")
    return lines


def _changes(wishes: Wishes, recipe: Recipe | None) -> list[str]:
    """Who does what a recipe gives to somebody this job does not have: the inspector, a second pair of hands."""
    changes = []
    for step in recipe.steps if recipe else ():
        if step.trade == INSPECTOR and wishes.looks_itself:
            changes.append(f"{step.name}: {{by: {OWN_TRADE}}}")
        elif _too_much_alone(step) and not wishes.helper:
            changes.append(f"{step.name}: {{by: {HELPERS}}}")
    return [f"change: {{{', '.join(changes)}}}"] if changes else []


def _too_much_alone(step: RecipeStep) -> bool:
    return step.trade == OWN_TRADE and step.hands > 1


def _orders(wishes: Wishes) -> list[str]:
    lines = []
    for room in wishes.rooms:
        names = recipes_of(room)
        for order in ORDERS:
            if order.recipe in names:
                lines.append(_order(order, room, len(wishes.rooms) > 1))
    return ["", "orders:", *lines] if lines else []


def _order(order: Ordered, room: RoomWish, several: bool) -> str:
    where = f"{room.name} " if several else ""
    made = f", made after: {where}{order.made_after}" if order.made_after else ""
    name = f"{room.name} {order.item}" if several else order.item
    return _remarked(f"  {name}: {{for: {where}{order.step}{made}, lead: {order.lead}}}", "ask the supplier")
