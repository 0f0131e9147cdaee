"""Limits of air in words: `10 to 32 C, at most 85 %, surface 3 C above dew point`."""

from __future__ import annotations

import re
from dataclasses import replace

from sequencer.files.quantities import parse_humidity, parse_minutes, parse_temperature, parse_temperature_difference
from sequencer.files.tree import Text, cut, pieces
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place
from sequencer.terms.wait import Limit, LimitKind

_WRITE = "write 10 to 32 C, at least 10 C, at most 85 %, surface 3 C above dew point or wood 6 to 9 %"
_BEFORE = re.compile(r"(?P<time>.+?)\s+before\s+(?P<rest>.+)")
_DEW = re.compile(r"surface\s+(?P<by>.+?)\s+above\s+dew\s+point")
_WOOD = re.compile(r"wood\s+(?P<bounds>.+)")
_SIDES = re.compile(r"(?P<side>at least|at most)\s+(?P<value>.+)")
_RANGE = re.compile(r"(?P<low>[-−]?[0-9].*?)\s+to\s+(?P<high>.+)")
_UNIT = re.compile(r"[^\W\d_]+|%")

_OF_WOOD = {"driest": "wood_driest", "dampest": "wood_dampest"}

Bounds = dict[str, float]


def bound(text: str, above: bool) -> Bounds:
    """One side of a limit as fields of Limit: the least if `above`, else the most. `text`: `10 C` or `85 %`."""
    if text.endswith("%"):
        return {"driest" if above else "dampest": parse_humidity(text)}
    return {"coldest" if above else "hottest": parse_temperature(text)}


def _bounds(text: str) -> Bounds:
    if found := _DEW.fullmatch(text):
        return {"above_dew_point": parse_temperature_difference(cut(text, found.start("by"), found.end("by")))}
    if found := _WOOD.fullmatch(text):
        bounds = _bounds(cut(text, found.start("bounds")))
        if not bounds.keys() <= _OF_WOOD.keys():
            raise Wrong(text, f'"{text}" is no moisture of wood', "write wood 6 to 9 %, or wood at most 9 %")
        return {_OF_WOOD[name]: value for name, value in bounds.items()}
    if found := _SIDES.fullmatch(text):
        return bound(cut(text, found.start("value")), found["side"] == "at least")
    if found := _RANGE.fullmatch(text):
        low, high = cut(text, 0, found.end("low")), cut(text, found.start("high"))
        most = bound(high, False)
        unit = _UNIT.search(high)
        if unit is not None and not _UNIT.search(low):
            low = Text(f"{low} {unit[0]}", low.place, shift=None) if isinstance(low, Text) else f"{low} {unit[0]}"
        least = bound(low, True)
        if low.endswith("%") != high.endswith("%"):
            raise Wrong(text, f'"{text}" mixes temperature and humidity', _WRITE)
        if next(iter(least.values())) > next(iter(most.values())):
            raise Wrong(text, f'"{text}" ends below its start', "write the lower number first")
        return {**least, **most}
    raise Wrong(text, f'"{text}" is no limit of air', _WRITE)


def parse_limits(text: str, place: Place, source: str) -> tuple[Limit, ...]:
    """The limits of a step's `air`: one for the work itself, one for each span of hours before it. Raises Wrong."""
    found: dict[float, Limit] = {}
    wrongs: list[Wrong] = []
    for part in pieces(text):
        try:
            before, rest = 0.0, part
            if match := _BEFORE.fullmatch(part):
                before = parse_minutes(cut(part, 0, match.end("time"))) / 60
                rest = cut(part, match.start("rest"))
            kind: LimitKind = "before" if before else "while working"
            limit = found.get(before, Limit(kind, place, hours_before=before, source=source))
            bounds = _bounds(rest)
            if any(getattr(limit, name) is not None for name in bounds):
                raise Wrong(part, f'"{part}" limits a second time what is limited before it', "keep one of the two")
            found[before] = replace(limit, **bounds)  # type: ignore[arg-type]
        except Wrong as wrong:
            wrongs.append(wrong)
    if wrongs:
        raise Wrong.of(wrongs)
    return tuple(found.values())
