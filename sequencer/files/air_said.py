"""The key `air`: lines by day or from a step on, and the files and figures beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from sequencer.files.air_text import AirText, parse_air
from sequencer.files.days import parse_day
from sequencer.files.fields import text_of
from sequencer.files.quantities import parse_length, parse_number, parse_temperature
from sequencer.files.refs import Ref, parse_ref
from sequencer.files.tree import Table, Text, cut, pieces
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.place import Place


@dataclass(frozen=True)
class AirLine:
    """One line of air: from its day on (None: always), or from the end of work of what `after` points at."""

    day: date | None
    text: AirText
    place: Place
    after: Ref | None = None


@dataclass(frozen=True)
class Indoors:
    """How outdoor air is brought in: heated to [C] (None: as it is), gain [kg/kg]."""

    heated_to: float | None
    gain: float


@dataclass(frozen=True)
class AirWords:
    """All a file says of a room's air. `readings`, `outdoor`, `forecast`: names of files; `altitude` [m]."""

    lines: tuple[AirLine, ...] = ()
    readings: Text | None = None
    outdoor: Text | None = None
    forecast: Text | None = None
    indoors: Indoors | None = None
    altitude: float | None = None


_KEYS = ("readings", "outdoor", "forecast", "indoors", "altitude", "said")
_GAIN = re.compile(r"gain\s+(?P<value>.+?)\s*(?P<unit>g/kg|gr/lb)")
_PER_KG = {"g/kg": 1e-3, "gr/lb": 1 / 7000}
"""Kilograms of water a kilogram of dry air: grams in a kilogram, grains in a pound (by definition)."""


def parse_air_words(node: Any, context: dict[str, Any]) -> AirWords:
    """The key `air`: one text, texts by day, or the air's sources with such texts under `said`. Raises Wrong."""
    if not isinstance(node, Table):
        text = text_of(node)
        assert isinstance(text, Text)
        return AirWords((AirLine(None, parse_air(text), text.place),))
    if not node.keys() & set(_KEYS):
        return AirWords(_by_day(node, context["start"]))
    wrongs = [Wrong(key, f'"{key}" is not known here', nearest(key, _KEYS)) for key in node.texts() if key not in _KEYS]
    if wrongs:
        raise Wrong.of(wrongs)
    if not node.keys() & {"outdoor", "forecast"}:
        for key in node.texts():
            if key in ("indoors", "altitude"):
                raise Wrong(key, f'"{key}" says nothing without outdoor air', "name a file under outdoor or forecast")
    said = {key: text_of(node[key]) for key in _KEYS[:-1] if key in node}
    return AirWords(
        lines=parse_air_words(node["said"], context).lines if "said" in node else (),
        readings=_text(said.get("readings")),
        outdoor=_text(said.get("outdoor")),
        forecast=_text(said.get("forecast")),
        indoors=_indoors(said["indoors"]) if "indoors" in said else None,
        altitude=parse_length(said["altitude"]) if "altitude" in said else None,
    )


def _text(text: str | None) -> Text | None:
    assert text is None or isinstance(text, Text)
    return text


def _indoors(text: str) -> Indoors:
    """`20 C, gain 2 g/kg`"""
    warmth: float | None = None
    gain = 0.0
    for piece in pieces(text):
        if found := _GAIN.fullmatch(piece):
            gain = parse_number(cut(piece, found.start("value"), found.end("value"))) * _PER_KG[found["unit"]]
        elif warmth is None and not piece.startswith("gain"):
            warmth = parse_temperature(piece)
        else:
            raise Wrong(piece, f'"{piece}" does not say how outdoor air comes in', "write 20 C, gain 2 g/kg")
    return Indoors(warmth, gain)


def _by_day(table: Table, start: date | None) -> tuple[AirLine, ...]:
    lines: dict[date, AirLine] = {}
    after: list[AirLine] = []
    wrongs: list[Wrong] = []
    before: Text | None = None
    for key in table.texts():
        try:
            if table.flow and table[key] == "":
                raise _cut_short(key, before, table)
            before = key
            text = text_of(table[key])
            assert isinstance(text, Text)
            if key.startswith("after "):
                after.append(AirLine(None, parse_air(text), text.place, _after(key)))
                continue
            day = parse_day(key, start) if start is not None else date.min
            if day in lines and start is not None:
                raise Wrong(key, f'the air from "{key}" on is said a second time', "keep one of the two")
            lines[day] = AirLine(day, parse_air(text), text.place)
        except Wrong as wrong:
            wrongs.append(wrong)
    if wrongs:
        raise Wrong.of(wrongs)
    return (*(lines[day] for day in sorted(lines)), *after)


def _cut_short(key: Text, before: Text | None, table: Table) -> Wrong:
    """A piece of a line that a comma inside braces has made a key."""
    if before is None:
        return Wrong(key, f'"{key}" stands in braces, without a day', "leave out the braces")
    what = f'inside braces the comma before "{key}" ends the line of air'
    return Wrong(key, what, f'put the line in quotes: {{{before}: "{table[before]}, {key}"}}')


def _after(key: Text) -> Ref:
    ref = parse_ref(key.cut(len("after ")))
    if ref.purpose is not None:
        raise Wrong(key, "air begins with the end of work of a step", f'write "after {ref.who}"')
    return ref
