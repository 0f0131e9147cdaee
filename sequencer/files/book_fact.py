"""The words of a site book's line: `done bathroom/grout/walls`, `measured bathroom, 17.5 C 62 %`."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any, get_args

from sequencer.files.air_text import parse_air
from sequencer.files.book_line import Line
from sequencer.files.book_value import parse_value
from sequencer.files.calendar_days import ONE, Calendar
from sequencer.files.clock import parse_hour
from sequencer.files.days import day_from, parse_days
from sequencer.files.quantities import parse_duration
from sequencer.files.tree import Text, pieces
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.fact import Fact, FactKind
from sequencer.terms.minute import utc

KINDS: tuple[FactKind, ...] = get_args(FactKind)
UNDO = re.compile(r"undo (?P<number>[0-9]{1,9})")

_WORDS = re.compile(r"(?P<kind>\S+?)(?:\s+(?P<about>[^,]+?))?(?:\s*,\s*(?P<rest>.+))?")
_READY = re.compile(r"(?P<not>not\s+)?ready\s+for\s+(?P<purpose>[^,]+?)(?:\s*,\s*(?P<words>.+))?")
_FOR = re.compile(r"for\s+(?P<purpose>[^,]+?)(?:\s*,\s*(?P<words>.+))?")
_VISIT = re.compile(r"(?P<day>.+?)\s+(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m)", re.IGNORECASE)
_FOUND = re.compile(r"(?P<what>[^,]+?)\s*,\s*(?P<time>[^,]+?)(?:\s*,\s*by\s+(?P<by>[^,]+))?")
BY = re.compile(r"(?P<what>on site|rest)\s+by\s+(?P<day>.+)")

Parsed = dict[str, Any]


def fact_of(line: Line, calendar: Calendar) -> Fact:
    """The fact of a line, its names not met yet. Days without a year count from the day it happened. Raises Wrong."""
    found = _WORDS.fullmatch(line.words)
    kind = found["kind"] if found else ""
    if found is None or kind not in KINDS:
        raise Wrong(line.words, f'"{kind or line.words}" is no fact', nearest(kind, (*KINDS, "undo")))
    about = line.words.cut(*found.span("about")) if found["about"] else Text("", line.words.place)
    rest = line.words.cut(*found.span("rest")) if found["rest"] else Text("", line.words.place)
    if kind == "note" and "/" not in about:
        rest = line.words.cut(found.start("about") if found["about"] else found.start("rest"))
        about = Text("", line.words.place)
    elif not about:
        raise Wrong(line.words, f'"{kind}" does not say of what', f"write {EXAMPLES[kind]}")
    day = utc(line.happened).astimezone(calendar.zone).date()
    parsed = _REST[kind](rest, about, day, calendar) if kind in _REST else {}
    return Fact(line.number, kind, str(about), line.happened, line.written, str(rest), about.place, **parsed)


def _measured(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    if "/" not in about:
        air = parse_air(rest) if rest else None
        if air is None or len(air.parts) != 1 or air.parts[0].when is not None or air.parts[0].how != "stated":
            raise Wrong(rest or about, f'"{rest}" is no air a meter read', "write measured bathroom, 17.5 C 62 %")
        return {"temperature": air.parts[0].temperature, "humidity": air.parts[0].humidity}
    found = _READY.fullmatch(rest)
    if found is not None:
        return {"purpose": found["purpose"], "ready": not found["not"]}
    return {"value": parse_value(rest)}


def _ready(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    found = _FOR.fullmatch(rest)
    if found is None:
        raise Wrong(rest or about, "it does not say what the layer is ready for", f"write {EXAMPLES['ready']}")
    return {"purpose": found["purpose"]}


def _late(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    if not rest.startswith("until "):
        raise Wrong(rest or about, "it does not say until when", f"write {EXAMPLES['late']}")
    until = calendar.midnight(day_from(rest.cut(len("until")), day))
    if until <= calendar.midnight(day):
        raise Wrong(rest, "this day is over already", "write the first day they are there again")
    return {"span": (calendar.midnight(day), until)}


def _away(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    first, out = parse_days(rest, day)
    return {"span": (calendar.midnight(first), calendar.midnight(out))}


def _found(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    found = _FOUND.fullmatch(rest)
    if found is None:
        raise Wrong(rest or about, "it does not say what was found and how long it takes", f"write {EXAMPLES['found']}")
    minutes = parse_duration(rest.cut(*found.span("time")))
    if minutes < 1:
        raise Wrong(rest.cut(*found.span("time")), "work that takes no time", "write 6 h")
    return {"minutes": minutes, "by": found["by"]}


def _visit(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    found = _VISIT.fullmatch(rest)
    if found is None:
        raise Wrong(rest or about, "it does not say the day and the hour of the visit", f"write {EXAMPLES['booked']}")
    on = day_from(rest.cut(*found.span("day")), day)
    return {"at": calendar.minute(on, parse_hour(rest.cut(*found.span("hour"))))}


def _asked(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    return _visit(rest, about, day, calendar) if rest else {}


def _order(rest: Text, about: Text, day: date, calendar: Calendar) -> Parsed:
    """What is said of an order: that it came short, and when (the rest of) it is promised to be on site."""
    parsed: Parsed = {"short": False}
    for piece in pieces(rest):
        by = BY.fullmatch(piece)
        if by is not None:
            parsed["at"] = calendar.midnight(day_from(by["day"], day) + ONE)
        elif piece == "short":
            parsed["short"] = True
    return parsed


_REST: dict[str, Callable[[Text, Text, date, Calendar], Parsed]] = {
    "measured": _measured,
    "ready": _ready,
    "late": _late,
    "away": _away,
    "found": _found,
    "asked": _asked,
    "booked": _visit,
    "ordered": _order,
    "delivered": _order,
}

EXAMPLES: dict[str, str] = {
    "began": "began bathroom/wall-tile/set",
    "done": "done bathroom/wall-tile/set",
    "measured": "measured bathroom, 17.5 C 62 %",
    "ready": "ready bathroom/screed/lay, for tile",
    "passed": "passed bathroom/rough-inspection/look",
    "failed": "failed bathroom/rough-inspection/look",
    "late": "late plumber, until Thu 12 March 2026",
    "away": "away plumber, Thu 12 March 2026 to Fri 13 March 2026",
    "found": "found bathroom/strip-out/floor, rot, 6 h",
    "ordered": "ordered floor tile",
    "delivered": "delivered floor tile",
    "asked": "asked bathroom/rough-plumbing/pipes, Tue 10 March 2026 08:00",
    "booked": "booked bathroom/rough-plumbing/pipes, Tue 10 March 2026 08:00",
    "released": "released bathroom/rough-plumbing/pipes",
    "told": "told client, hand-over Fri 27 March",
    "note": "note the key is under the mat",
}
"""A line of each kind, after its moments."""
