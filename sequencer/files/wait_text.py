"""A wait in words: `after 4 h at 21 C 50 %, within 24 h, water film law, never under 2 h (c)`."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from sequencer.files.hours_text import parse_times
from sequencer.files.limits_text import bound
from sequencer.files.quantities import parse_duration, parse_humidity, parse_length, parse_minutes, parse_temperature
from sequencer.files.sources import Sources
from sequencer.files.tree import cut, pieces
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.laws import DEPTH_LAWS, LAW_NAMES
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, LimitKind, Wait

_AFTER = re.compile(r"after\s+(?P<time>.+?)(?:\s+at\s+(?P<air>.+))?")
_AIR = re.compile(r"(?P<temperature>[-−]?\s*[0-9./ ]+\s*°?\s*[^\W\d_]+)(?:\s+(?P<humidity>.+))?")
_WITHIN = re.compile(r"within\s+(?P<time>.+?)(?P<ready>\s+of\s+ready)?")
_LIMIT = re.compile(r"(?P<kind>stops|spoils)\s+(?P<side>below|above)\s+(?P<value>.+)")
LONGEST = 2 * 365 * 24.0
"""A longer wait is a slip of the hand [h]."""
_WRITE = "write it like: after 4 h at 21 C 50 %, within 24 h, cement law"


@dataclass
class _Parts:
    hours: float | None = None
    temperature: float | None = None
    humidity: float | None = None
    within: int | None = None
    of_ready: bool = False
    law: str | None = None
    floor: float | None = None
    times: tuple[float, float] = (1.0, 1.0)
    depth: float | None = None
    limits: list[Limit] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    def once(self, part: str, what: str) -> None:
        if what in self.seen:
            raise Wrong(part, f'"{part}" says a second time {what}', "keep one of the two")
        self.seen.add(what)


def _after(parts: _Parts, part: str, found: re.Match[str]) -> None:
    parts.once(part, "how long it waits")
    parts.hours = parse_minutes(cut(part, found.start("time"), found.end("time"))) / 60
    if found["air"] is None:
        return
    air = cut(part, found.start("air"))
    shape = _AIR.fullmatch(air)
    if shape is None:
        raise Wrong(air, f'"{air}" is no air', "write at 21 C, or at 21 C 50 %")
    parts.temperature = parse_temperature(cut(air, 0, shape.end("temperature")))
    if shape["humidity"]:
        parts.humidity = parse_humidity(cut(air, shape.start("humidity")))


def _law(parts: _Parts, part: str) -> None:
    parts.once(part, "its law")
    name = part if part == "fixed" else cut(part, 0, len(part) - len(" law"))
    if name not in LAW_NAMES:
        known = [law if law == "fixed" else f"{law} law" for law in LAW_NAMES]
        raise Wrong(part, f'no law is called "{name}"', nearest(part, known))
    parts.law = str(name)


def _read(parts: _Parts, part: str, place: Place, source: str) -> None:
    if found := _AFTER.fullmatch(part):
        _after(parts, part, found)
    elif found := _WITHIN.fullmatch(part):
        parts.once(part, "the latest start")
        parts.within = parse_duration(cut(part, found.start("time"), found.end("time")))
        parts.of_ready = found["ready"] is not None
    elif part == "fixed" or part.endswith(" law"):
        _law(parts, part)
    elif part.startswith("never under "):
        parts.once(part, "what it is never under")
        parts.floor = parse_minutes(cut(part, len("never under "))) / 60
    elif part.endswith(" deep"):
        parts.once(part, "how deep the layer is")
        parts.depth = parse_length(cut(part, 0, len(part) - len(" deep"))) * 1000
    elif found := _LIMIT.fullmatch(part):
        kind: LimitKind = "stops" if found["kind"] == "stops" else "spoils"
        bounds = bound(cut(part, found.start("value")), found["side"] == "below")
        parts.limits.append(Limit(kind, place, source=source, **bounds))
    elif (times := parse_times(part)) is not None:
        parts.once(part, "its range")
        parts.times = times
    else:
        raise Wrong(part, f'"{part}" is no part of a wait' if part else "a part of the wait is missing here", _WRITE)


def parse_wait(purpose: str, text: str, place: Place, sources: Sources) -> Wait:
    """The wait for a purpose. Raises Wrong with all that is wrong in it."""
    wrongs: list[Wrong] = []
    source = ""
    try:
        text, source = sources.split(text)
    except Wrong as wrong:
        wrongs.append(wrong)
        text = cut(text, 0, text.index("(")) if "(" in text else text
    parts = _Parts()
    for part in pieces(text):
        try:
            _read(parts, part, place, source)
        except Wrong as wrong:
            wrongs.append(wrong)
    if not wrongs:
        wrongs = _whole(parts, text)
    if wrongs:
        raise Wrong.of(wrongs)
    assert parts.hours is not None and parts.law is not None
    return Wait(
        purpose=str(purpose),
        law=parts.law,
        hours=parts.hours,
        place=place,
        source=source,
        at_temperature=parts.temperature,
        at_humidity=parts.humidity,
        floor_hours=parts.floor,
        within_minutes=parts.within,
        within_of_ready=parts.of_ready,
        low=parts.times[0],
        high=parts.times[1],
        thickness=parts.depth,
        limits=tuple(parts.limits),
    )


def _whole(parts: _Parts, text: str) -> list[Wrong]:
    wrongs: list[Wrong] = []
    if parts.hours is None:
        wrongs.append(Wrong(text, "the wait does not say how long it is", _WRITE))
    if max(parts.hours or 0.0, parts.floor or 0.0) > LONGEST:
        wrongs.append(Wrong(text, "no layer takes longer than two years", "check the number and its unit"))
    if parts.law is None:
        wrongs.append(Wrong(text, "the wait names no law", 'add "cement law", "paint law" or another, or "fixed"'))
    if parts.law == "fixed" and parts.temperature is not None:
        wrongs.append(Wrong(text, "a fixed wait does not hear the air", "leave out the air, or name a law"))
    if parts.depth is not None and parts.law is not None and parts.law not in DEPTH_LAWS:
        wrongs.append(Wrong(text, f"the {parts.law} law knows no depth", "leave out how deep the layer is"))
    if parts.hours and parts.within is not None and not parts.of_ready:
        soonest = max(parts.hours, parts.floor or 0.0) * 60
        if parts.within < soonest:
            what = "the latest start lies before the layer is ready"
            wrongs.append(Wrong(text, what, "make within longer than after"))
    return wrongs
