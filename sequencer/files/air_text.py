"""A room's air in words: `14 C 08:00-16:00, 9 C otherwise, 75 %`, `heated to 20 C, dried to 50 %`."""

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
    r"(?P<temperature>[-−]?\s*[0-9./ ]*[0-9]\s*°?\s*[^\W\d_]+)?\s*(?P<humidity>[0-9./ ]*[0-9]\s*%(?:\s*RH)?)?\s*"
    r"(?P<when>otherwise|[0-9]{1,2}(?::[0-9]{2})?\s*(?:am|pm)?\s*[-–].+)?",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"(?P<figure>[-−]?[0-9]+(?:\.[0-9]+)?)\s*°?\s*(?P<unit>[CF])?(?:\s+(?P<share>[0-9]*\.?[0-9]+))?", re.IGNORECASE
)
"""A temperature without its unit, or with a humidity without its sign or as a fraction."""
_FLOOR = re.compile(r"floor\s+at\s+(?P<value>.+)")
_TO = re.compile(r"(?P<how>heated|dried)\s+to\s+")
_WRITE = "write 17 C 65 %, or 14 C 08:00-16:00, 9 C otherwise, 75 %"

When = tuple[int, int] | Literal["otherwise"] | None


@dataclass(frozen=True)
class AirPart:
    """Temperature [C], humidity [0..1], floor [C], and when in the day [min after midnight]; None: all day.

    `how`: stated, heated, dried or in words.
    """

    temperature: float | None
    humidity: float | None
    when: When
    how: str = "stated"
    floor: float | None = None


@dataclass(frozen=True)
class AirText:
    """What one line says of the air. `words`: the line itself."""

    parts: tuple[AirPart, ...]
    words: str

    @property
    def in_words(self) -> bool:
        """True if it is one of IN_WORDS."""
        return self.words in IN_WORDS

    @property
    def overlay(self) -> bool:
        """True if it only heats or dries what the room is otherwise said to be."""
        return all(part.how in ("heated", "dried") for part in self.parts)


def _part(text: str) -> AirPart:
    found = _PART.fullmatch(text)
    if found is None or not (found["temperature"] or found["humidity"]):
        raise Wrong(text, f'"{text}" is no air' if text else "a part of the air is missing here", _instead(text))
    temperature = humidity = None
    if found["temperature"]:
        temperature = parse_temperature(cut(text, 0, found.end("temperature")))
    if found["humidity"]:
        humidity = parse_humidity(cut(text, found.start("humidity"), text.index("%", found.start("humidity")) + 1))
    when: When = None
    if found["when"] == "otherwise":
        when = "otherwise"
    elif found["when"]:
        when = parse_hours(cut(text, found.start("when")), over_midnight=True)
    return AirPart(temperature, humidity, when)


def _instead(text: str) -> str:
    """What to write instead of a part that is no air."""
    if re.fullmatch(r"[^\W\d_][^\d]*", text):
        return nearest(text, IN_WORDS)
    bare = _BARE.fullmatch(text)
    if bare is None:
        return _WRITE
    share = float(bare["share"] or 0)
    humidity = f" {share * (100 if share <= 1 else 1):g} %" if share else ""
    return f"write {bare['figure']} {bare['unit'] or 'C'}{humidity}{'' if bare['unit'] else ', or F'}"


def parse_air(text: str) -> AirText:
    """One line of air. Raises Wrong with all that is wrong in it."""
    if text in IN_WORDS:
        parts = parse_air(IN_WORDS[text]).parts
        return AirText(tuple(replace(part, how="in words") for part in parts), str(text))
    said: list[AirPart] = []
    wrongs: list[Wrong] = []
    how = "stated"
    for piece in pieces(text):
        try:
            found = _TO.match(piece)
            if found is not None and found["how"] == "heated":
                how = "heated"
            part = _floor(piece, how) or _piece(piece, found, how)
            _fits(piece, part, [other for other in said if other.how != "dried"] if part.how != "dried" else [])
            said.append(part)
        except Wrong as wrong:
            wrongs.append(wrong)
    if not wrongs and all(part.temperature is None and part.humidity is None for part in said):
        wrongs.append(Wrong(text, "the line does not say what the air is", "write 14 C 75 %, floor at 10 C"))
    if wrongs:
        raise Wrong.of(wrongs)
    return AirText(tuple(said), str(text))


def _piece(piece: str, to: re.Match[str] | None, how: str) -> AirPart:
    """One piece of a line: after "heated to" every piece is the heater's, "dried to" is a humidity alone."""
    part = _part(cut(piece, to.end()) if to else piece)
    if to is None or to["how"] == "heated":
        if to is not None and part.temperature is None:
            raise Wrong(piece, f'"{piece}" does not say how warm', "write heated to 20 C")
        return replace(part, how=how)
    if part.temperature is not None or part.humidity is None:
        raise Wrong(piece, f'"{piece}" does not say how damp', "write dried to 50 %")
    return replace(part, how="dried")


def _floor(piece: str, how: str) -> AirPart | None:
    found = _FLOOR.fullmatch(piece)
    if found is None:
        return None
    return AirPart(None, None, None, how, parse_temperature(cut(piece, found.start("value"))))


def _fits(piece: str, part: AirPart, before: list[AirPart]) -> None:
    for figure in ("temperature", "humidity", "floor"):
        if getattr(part, figure) is None:
            continue
        others = [other.when for other in before if getattr(other, figure) is not None]
        if part.when in others:
            raise Wrong(piece, f'"{piece}" says a second time what the {figure} is', "keep one of the two")
        if part.when is None and others or None in others:
            raise Wrong(piece, f"the {figure} is said for the whole day already", "give each hours, or otherwise")
        if part.when == "otherwise" and not others:
            raise Wrong(piece, '"otherwise" needs hours before it', "write 14 C 08:00-16:00, 9 C otherwise")
