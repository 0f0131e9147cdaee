"""A wait in words: `after 4 h at 21 C 50 %, within 24 h, water film law, never under 2 h (c)`."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from sequencer.files.hours_text import parse_times
from sequencer.files.limits_text import bound
from sequencer.files.quantities import parse_duration, parse_humidity, parse_length, parse_minutes, parse_temperature
from sequencer.files.sources import Sources
from sequencer.files.tree import cut, pieces
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.laws import DEPTH_LAWS, LAW_NAMES
from sequencer.terms.place import Place
from sequencer.terms.strength import SLOWNESS, hours_to_strength
from sequencer.terms.wait import Limit, LimitKind, Wait

_AFTER = re.compile(r"(?:after|then)\s+(?P<time>.+?)(?:\s+at\s+(?P<air>.+))?")
_STRENGTH = re.compile(r"(?:then\s+)?to\s+(?P<share>.+?)\s+strength")
_AIR = re.compile(r"(?P<temperature>[-−]?\s*[0-9./ ]+\s*°?\s*[^\W\d_]+)(?:\s+(?P<humidity>.+))?")
_WITHIN = re.compile(r"within\s+(?P<time>.+?)(?P<ready>\s+of\s+ready)?")
_LIMIT = re.compile(r"(?P<kind>stops|spoils)\s+(?P<side>below|above)\s+(?P<value>.+)")
LONGEST = 2 * 365 * 24.0
"""A longer wait is a slip of the hand [h]."""
_WRITE = "write it like: after 4 h at 21 C 50 %, within 24 h, cement law"


@dataclass
class _Stage:
    """One stage of a wait: its time, law, depth and what stops it. `begin`: the part it begins with."""

    begin: str
    hours: float | None = None
    strength: float | None = None
    temperature: float | None = None
    humidity: float | None = None
    law: str | None = None
    depth: float | None = None
    stops: list[Limit] = field(default_factory=list)


@dataclass
class _Parts:
    """A wait as read so far: its stages, and what holds for the whole of it."""

    stages: list[_Stage]
    within: int | None = None
    of_ready: bool = False
    floor: float | None = None
    times: tuple[float, float] = (1.0, 1.0)
    spoils: list[Limit] = field(default_factory=list)
    seen: set[str] = field(default_factory=set)

    def once(self, part: str, what: str, of_stage: bool = False) -> None:
        key = f"{what} {len(self.stages)}" if of_stage else what
        if key in self.seen:
            raise Wrong(part, f'"{part}" says a second time {what}', "keep one of the two")
        self.seen.add(key)


def _after(parts: _Parts, part: str, found: re.Match[str]) -> None:
    parts.once(part, "how long it waits", of_stage=True)
    stage = parts.stages[-1]
    stage.hours = parse_minutes(cut(part, found.start("time"), found.end("time"))) / 60
    if found["air"] is None:
        return
    air = cut(part, found.start("air"))
    shape = _AIR.fullmatch(air)
    if shape is None:
        raise Wrong(air, f'"{air}" is no air', "write at 21 C, or at 21 C 50 %")
    stage.temperature = parse_temperature(cut(air, 0, shape.end("temperature")))
    if shape["humidity"]:
        stage.humidity = parse_humidity(cut(air, shape.start("humidity")))


def _strength(parts: _Parts, part: str, found: re.Match[str]) -> None:
    parts.once(part, "how long it waits", of_stage=True)
    share = cut(part, found.start("share"), found.end("share"))
    parts.stages[-1].strength = parse_humidity(share)
    if not parts.stages[-1].strength:
        raise Wrong(share, "a layer has no strength at the start", "write to 70 % strength")


def _law(parts: _Parts, part: str) -> None:
    parts.once(part, "its law", of_stage=True)
    name = part if part == "fixed" else cut(part, 0, len(part) - len(" law"))
    if name not in LAW_NAMES:
        known = [law if law == "fixed" else f"{law} law" for law in LAW_NAMES]
        raise Wrong(part, f'no law is called "{name}"', nearest(part, known))
    parts.stages[-1].law = str(name)


def _read(parts: _Parts, part: str, place: Place, source: str) -> None:
    if part.startswith("then "):
        parts.stages.append(_Stage(part))
    if found := _STRENGTH.fullmatch(part):
        _strength(parts, part, found)
    elif found := _AFTER.fullmatch(part):
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
        parts.once(part, "how deep the layer is", of_stage=True)
        parts.stages[-1].depth = parse_length(cut(part, 0, len(part) - len(" deep"))) * 1000
    elif found := _LIMIT.fullmatch(part):
        kind: LimitKind = "stops" if found["kind"] == "stops" else "spoils"
        bounds = bound(cut(part, found.start("value")), found["side"] == "below")
        limits = parts.stages[-1].stops if kind == "stops" else parts.spoils
        limits.append(Limit(kind, place, source=source, **bounds))
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
    parts = _Parts([_Stage(text)])
    for part in pieces(text):
        try:
            _read(parts, part, place, source)
        except Wrong as wrong:
            wrongs.append(wrong)
    if not wrongs:
        wrongs = [wrong for stage in parts.stages for wrong in _stage_wrongs(stage)] or _whole(parts, text)
    if wrongs:
        raise Wrong.of(wrongs)
    first, *later = (_wait_of(stage, str(purpose), place, source) for stage in parts.stages)
    return replace(
        first,
        floor_hours=parts.floor,
        within_minutes=parts.within,
        within_of_ready=parts.of_ready,
        low=parts.times[0],
        high=parts.times[1],
        limits=(*first.limits, *parts.spoils),
        then=tuple(later),
    )


def _wait_of(stage: _Stage, purpose: str, place: Place, source: str) -> Wait:
    assert stage.law is not None
    return Wait(
        purpose=purpose,
        law=stage.law,
        hours=_hours(stage),
        place=place,
        source=source,
        at_temperature=stage.temperature,
        at_humidity=stage.humidity,
        thickness=stage.depth,
        strength=stage.strength,
        limits=tuple(stage.stops),
    )


def _hours(stage: _Stage) -> float:
    if stage.strength is not None and stage.law is not None:
        return hours_to_strength(stage.law, stage.strength)
    return stage.hours or 0.0


def _stage_wrongs(stage: _Stage) -> list[Wrong]:
    wrongs: list[Wrong] = []
    text = stage.begin
    if stage.hours is None and stage.strength is None:
        wrongs.append(Wrong(text, "the wait does not say how long it is", _WRITE))
    if stage.law is None:
        wrongs.append(Wrong(text, "the wait names no law", 'add "cement law", "paint law" or another, or "fixed"'))
    elif stage.strength is not None and stage.law not in SLOWNESS:
        wrongs.append(Wrong(text, f"the {stage.law} law knows no strength", "write after 24 h, or name a cement law"))
    if stage.law == "fixed" and stage.temperature is not None:
        wrongs.append(Wrong(text, "a fixed wait does not hear the air", "leave out the air, or name a law"))
    if stage.depth is not None and stage.law is not None and stage.law not in DEPTH_LAWS:
        wrongs.append(Wrong(text, f"the {stage.law} law knows no depth", "leave out how deep the layer is"))
    return wrongs


def _whole(parts: _Parts, text: str) -> list[Wrong]:
    wrongs: list[Wrong] = []
    hours = sum(map(_hours, parts.stages))
    if max(hours, parts.floor or 0.0) > LONGEST:
        wrongs.append(Wrong(text, "no layer takes longer than two years", "check the number and its unit"))
    if hours and parts.within is not None and not parts.of_ready and parts.within < max(hours, parts.floor or 0.0) * 60:
        what = "the latest start lies before the layer is ready"
        wrongs.append(Wrong(text, what, "make within longer than after"))
    return wrongs
