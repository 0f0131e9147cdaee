"""The sheet for the door: big plain words for whoever comes by, no names, no prices."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sequencer.answers.on_site.house_today import Notice
from sequencer.plan import Plan
from sequencer.terms.words import MARKS, in_words
from sequencer.views.as_json import document
from sequencer.views.clock import full
from sequencer.views.columns import rooms_of
from sequencer.views.held import base, held_in
from sequencer.views.lines import wrapped
from sequencer.views.on_site.days import Day

WIDTH = 40
"""Short lines, so that a printer sets them large."""
RULE = "=" * WIDTH
CLOSED = ("keep off", "water on", "leave")


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
                {"asks": asks, "surfaces": surfaces, "until": until} for asks, surfaces, until in _closed(day, room)
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
    for asks, surfaces, until in closed:
        lines += [*wrapped(f"{asks.upper()}: {surfaces.upper()}", width), *wrapped(f"until {until}", width, "  "), ""]
    if not closed:
        lines += [*wrapped("NOTHING IS CLOSED TODAY", width), ""]
    for one in (one for one in notice.off if one.room == room):
        lines += [*wrapped(f"{one.service} off {day.hours(one.spans)}".upper(), width), ""]
    cautions = notice.cautions.get(room, ())
    for text in cautions:
        lines += wrapped(in_words(text, day.plan.words), width, "- ", "  ")
    return [*lines, *([""] if cautions else [])]


def _closed(day: Day, room: str) -> Iterator[tuple[str, str, str]]:
    """What is asked, of which surfaces, until when; what is closed hardest first."""
    alike: dict[tuple[int, str, int], list[str]] = {}
    for one in held_in(day.plan, room):
        if one.key in CLOSED and one.start < day.end and one.end > day.opens:
            alike.setdefault((CLOSED.index(one.key), one.key, one.end), []).append(base(one.surface))
    for (_, mark, end), surfaces in sorted(alike.items()):
        yield MARKS[mark].asks, ", ".join(dict.fromkeys(surfaces)), f"{full(day.clock.day(end))} {day.clock.hour(end)}"
