"""The sheet for the door: big plain words for whoever comes by, no names, no prices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sequencer.answers.on_site.house_today import Notice
from sequencer.plan import Plan
from sequencer.terms.minute import Minute
from sequencer.terms.words import MARKS, in_words
from sequencer.views.as_json import document
from sequencer.views.clock import full
from sequencer.views.columns import rooms_of
from sequencer.views.held import Held, base, held_in
from sequencer.views.lines import wrapped
from sequencer.views.on_site.days import Day
from sequencer.views.titles import title_of_id

WIDTH = 40
"""Short lines, so that a printer sets them large."""
RULE = "=" * WIDTH
CLOSED = ("keep off", "water on", "leave")


@dataclass(frozen=True)
class Shut:
    """What is asked of people, of which surfaces, until when at the last, and why, a reason for each layer."""

    asks: str
    surfaces: str
    until: str
    reasons: tuple[str, ...]


def sign(plan: Plan, on: date, notice: Notice, width: int = WIDTH) -> str:
    """The sheet as text: a page a room."""
    day = Day(plan, on)
    pages = [_page(day, room, notice, width) for room in rooms_of(plan)]
    return "\n".join(line for page in pages for line in page) + "\n"


def sign_as_json(plan: Plan, on: date, notice: Notice) -> str:
    """The sheet as JSON."""
    day = Day(plan, on)
    rooms = [
        {
            "room": room,
            "closed": [
                {"asks": one.asks, "surfaces": one.surfaces, "until": one.until, "why": list(one.reasons)}
                for one in _closed(day, room)
            ],
            "off": [{"service": one.service, "hours": day.hours(one.spans)} for one in notice.off if one.room == room],
            "cautions": list(notice.cautions.get(room, ())),
        }
        for room in rooms_of(plan)
    ]
    return document("sign", job=plan.job, zone=plan.zone, day=on.isoformat(), rooms=rooms)


def _page(day: Day, room: str, notice: Notice, width: int) -> list[str]:
    title = day.plan.room_titles.get(room, room)
    lines = [RULE, *wrapped(title.upper(), width), *wrapped(full(day.date), width), RULE, ""]
    closed = list(_closed(day, room))
    for shut in closed:
        lines += wrapped(f"{shut.asks.upper()}: {shut.surfaces.upper()}", width)
        for text in (f"until {shut.until}", *shut.reasons):
            lines += wrapped(text, width, "  ", "  ")
        lines.append("")
    if not closed:
        lines += [*wrapped("NOTHING IS CLOSED TODAY", width), ""]
    for one in (one for one in notice.off if one.room == room):
        lines += [*wrapped(f"{one.service} off {day.hours(one.spans)}".upper(), width), ""]
    cautions = notice.cautions.get(room, ())
    for text in cautions:
        lines += wrapped(in_words(text, day.plan.words), width, "- ", "  ")
    return [*lines, *([""] if cautions else [])]


def _closed(day: Day, room: str) -> Iterator[Shut]:
    """What is closed, hardest first: each surface once for what it asks, surfaces alike together.

    What asks less of a surface is left out where it ends no later.
    """
    alike: dict[tuple[int, Minute, tuple[str, ...]], dict[str, None]] = {}
    hardest: dict[str, Minute] = {}
    today = [one for one in held_in(day.plan, room) if one.start < day.end and one.end > day.opens]
    for rank, key in enumerate(CLOSED):
        by_surface: dict[str, list[Held]] = {}
        for one in (one for one in today if one.key == key):
            by_surface.setdefault(base(one.surface), []).append(one)
        for surface, several in by_surface.items():
            end = max(one.end for one in several)
            if end > hardest.get(surface, day.opens):
                hardest[surface] = end
                reasons = tuple(dict.fromkeys(_reason(day, one) for one in sorted(several, key=lambda one: one.end)))
                alike.setdefault((rank, end, reasons), {})[surface] = None
    for (rank, end, reasons), surfaces in sorted(alike.items(), key=lambda one: one[0]):
        until = f"{full(day.clock.day(end))} {day.clock.hour(end)}"
        yield Shut(MARKS[CLOSED[rank]].asks, ", ".join(surfaces), until, reasons)


def _reason(day: Day, one: Held) -> str:
    """sets until 19:29 (Mat laid in its mortar)"""
    doing = "water stands on it" if one.key == "water on" else one.how if one.working else "work"
    at = day.clock.hour(one.end) if one.end < day.end else day.clock.at(one.end)
    return f"{doing} until {at} ({title_of_id(day.plan, one.step)})"
