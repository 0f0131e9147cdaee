"""Hands-on time in words: `1 h + 0.2 h/m2, least 2 h, 0.8 to 1.6 times (c)`."""

from __future__ import annotations

import re

from sequencer.files.quantities import AREA_UNITS, NUMBER, TIME_UNITS, parse_minutes, parse_number
from sequencer.files.sources import Sources
from sequencer.files.tree import cut, pieces
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.recipe import Hours

_RATE = re.compile(rf"(?P<number>{NUMBER})\s*(?P<time>[^\W\d_]+)\s*/\s*(?P<area>\w+)")
_TIMES = re.compile(rf"(?P<low>{NUMBER})\s+to\s+(?P<high>{NUMBER})\s+times")
_WRITE = "write 2 h, or 0.25 h/m2, least 1 h, 0.8 to 1.6 times"


def parse_times(text: str) -> tuple[float, float] | None:
    """The range `0.8 to 1.6 times` as factors, None if the text is none. Raises Wrong if it does not hold 1."""
    found = _TIMES.fullmatch(text)
    if found is None:
        return None
    low, high = parse_number(found["low"]), parse_number(found["high"])
    if not 0 < low <= 1 <= high:
        raise Wrong(text, f'"{text}" does not lie around 1', "write 0.8 to 1.6 times")
    return low, high


def _rate(text: str) -> float | None:
    found = _RATE.fullmatch(text)
    if found is None:
        return None
    time, area = found["time"], found["area"]
    if time not in TIME_UNITS or area not in AREA_UNITS:
        raise Wrong(text, f'"{text}" is no work for an area', "write 0.25 h/m2")
    return parse_number(found["number"]) * TIME_UNITS[time] / AREA_UNITS[area]


def parse_work(text: str, place: Place, sources: Sources) -> Hours:
    """Hands-on time of a step. Raises Wrong."""
    text, source = sources.split(text)
    fixed = per_area = least = 0.0
    low = high = 1.0
    head, *rest = pieces(text)
    for part in pieces(head, "+"):
        rate = _rate(part)
        if rate is None:
            fixed += parse_minutes(part)
        else:
            per_area += rate
    for part in rest:
        if part.startswith("least "):
            least = parse_minutes(cut(part, 6))
        elif (times := parse_times(part)) is not None:
            low, high = times
        else:
            raise Wrong(part, f'"{part}" is no part of hands-on time', _WRITE)
    if max(fixed, per_area, least) <= 0:
        raise Wrong(text, "the work takes no time", _WRITE)
    return Hours(fixed, per_area, least, low, high, source, place)
