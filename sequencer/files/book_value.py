"""Something read off a meter or a mark: `level 50 mm`, `resistance 52.3 ohm, 46.8 to 57.2 ohm`."""

from __future__ import annotations

import re

from sequencer.files.quantities import NUMBER, parse_number
from sequencer.files.tree import Text
from sequencer.files.wrong import Wrong
from sequencer.terms.fact import Value

_UNIT = r"(?P<unit>[^\s,\d][^,]*?)?"
_VALUE = re.compile(rf"(?P<what>[^,]*[^,\s])\s+(?P<figure>{NUMBER})\s*{_UNIT}(?:\s*,\s*(?P<limit>.+))?")
_LIMIT = re.compile(
    rf"(?:(?P<low>{NUMBER})\s+to\s+(?P<high>{NUMBER})|at\s+least\s+(?P<least>{NUMBER})|at\s+most\s+(?P<most>{NUMBER}))"
    rf"\s*{_UNIT}"
)
_WRITE = "write level 50 mm, or resistance 52.3 ohm, 46.8 to 57.2 ohm"


def parse_value(text: Text) -> Value:
    """A value with its unit, and the limits it has to keep. Raises Wrong."""
    found = _VALUE.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no reading', _WRITE)
    unit, figure = found["unit"] or "", _number(text, found, "figure")
    if not found["limit"]:
        return Value(found["what"], figure, unit)
    said = text.cut(*found.span("limit"))
    limit = _LIMIT.fullmatch(said)
    if limit is None:
        raise Wrong(said, f'"{said}" is no limit', "write 46.8 to 57.2 ohm, at least 100 ohm, or at most 60 ohm")
    if (limit["unit"] or "") != unit:
        raise Wrong(said, "the limit has another unit than the reading", "write both in one unit")
    least = next((_number(said, limit, part) for part in ("low", "least") if limit[part]), None)
    most = next((_number(said, limit, part) for part in ("high", "most") if limit[part]), None)
    if least is not None and most is not None and most < least:
        raise Wrong(said, "the limits are the wrong way round", "write the smaller one first")
    return Value(found["what"], figure, unit, least, most)


def _number(text: Text, found: re.Match[str], part: str) -> float:
    return parse_number(text.cut(*found.span(part)))
