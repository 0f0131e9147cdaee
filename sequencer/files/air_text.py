"""A room's air in words: `14 C 08:00-16:00, 9 C otherwise, 75 %`."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from sequencer.files.clock import parse_hours
from sequencer.files.quantities import parse_humidity, parse_temperature
from sequencer.files.tree import cut, pieces
from sequencer.files.wrong import Wrong, nearest

IN_WORDS = {
    "lived-in and heated": "20 C, 50 %",
    "heat down at night": "20 C 07:00-22:00, 16 C otherwise, 55 %",
    "empty house": "10 C, 70 %",
    "damp basement": "14 C, 80 %",
}
"""Air for people without a meter: assumptions, no source."""

_PART = re.compile(
    r"(?P<temperature>[-−]?\s*[0-9./ ]*[0-9]\s*°?\s*[^\W\d_]+)?\s*(?P<humidity>[0-9./ ]*[0-9]\s*%)?\s*"
    r"(?P<when>otherwise|[0-9]{1,2}(?::[0-9]{2})?\s*(?:am|pm)?\s*[-–].+)?",
    re.IGNORECASE,
)
_WRITE = "write 17 C 65 %, or 14 C 08:00-16:00, 9 C otherwise, 75 %"

When = tuple[int, int] | Literal["otherwise"] | None


@dataclass(frozen=True)
class AirPart:
    """Temperature [C], humidity [0..1] and when in the day [min after midnight]; None: all day."""

    temperature: float | None
    humidity: float | None
    when: When


@dataclass(frozen=True)
class AirText:
    """What one line says of the air. `how`: stated, heated or in words. `words`: the line itself."""

    parts: tuple[AirPart, ...]
    how: str
    words: str


def _part(text: str) -> AirPart:
    found = _PART.fullmatch(text)
    if found is None or not (found["temperature"] or found["humidity"]):
        known = nearest(text, IN_WORDS) if re.fullmatch(r"[^\W\d_][^\d]*", text) else _WRITE
        raise Wrong(text, f'"{text}" is no air' if text else "a part of the air is missing here", known)
    temperature = humidity = None
    if found["temperature"]:
        temperature = parse_temperature(cut(text, 0, found.end("temperature")))
    if found["humidity"]:
        humidity = parse_humidity(cut(text, found.start("humidity"), found.end("humidity")))
    when: When = None
    if found["when"] == "otherwise":
        when = "otherwise"
    elif found["when"]:
        when = parse_hours(cut(text, found.start("when")), over_midnight=True)
    return AirPart(temperature, humidity, when)


def parse_air(text: str) -> AirText:
    """One line of air. Raises Wrong with all that is wrong in it."""
    if text in IN_WORDS:
        return replace(parse_air(IN_WORDS[text]), how="in words", words=str(text))
    heated = re.match(r"heated\s+to\s+", text)
    body = cut(text, heated.end()) if heated else text
    parts: list[AirPart] = []
    wrongs: list[Wrong] = []
    for piece in pieces(body):
        try:
            part = _part(piece)
            _fits(piece, part, parts)
            parts.append(part)
        except Wrong as wrong:
            wrongs.append(wrong)
    if wrongs:
        raise Wrong.of(wrongs)
    return AirText(tuple(parts), "heated" if heated else "stated", str(text))


def _fits(piece: str, part: AirPart, before: list[AirPart]) -> None:
    for figure in ("temperature", "humidity"):
        if getattr(part, figure) is None:
            continue
        others = [other.when for other in before if getattr(other, figure) is not None]
        if part.when in others:
            raise Wrong(piece, f'"{piece}" says a second time what the {figure} is', "keep one of the two")
        if part.when is None and others or None in others:
            raise Wrong(piece, f"the {figure} is said for the whole day already", "give each hours, or otherwise")
        if part.when == "otherwise" and not others:
            raise Wrong(piece, '"otherwise" needs hours before it', "write 14 C 08:00-16:00, 9 C otherwise")
