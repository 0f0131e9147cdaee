"""A reading of a layer in words: `screed lay ready for tile, Tue 16 March 10:00, 84 %`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Any

from sequencer.files.clock import parse_hour
from sequencer.files.days import parse_day
from sequencer.files.fields import gathered, text_of
from sequencer.files.tree import Rows, Text
from sequencer.files.wrong import Wrong
from sequencer.terms.place import Place

_READING = re.compile(
    r"(?P<step>[^,]+?)\s+(?P<not>not\s+)?ready\s+for\s+(?P<purpose>[^,]+?),\s*"
    r"(?P<day>[^,]+?)\s+(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m)(?:,\s*(?P<words>.+))?",
    re.IGNORECASE,
)
_WRITE = "write screed lay ready for tile, Tue 16 March 10:00, 84 %"


@dataclass(frozen=True)
class Reading:
    """A reading as written. `hour`: minutes after midnight."""

    step: Text
    purpose: Text
    ready: bool
    day: date
    hour: int
    words: str
    place: Place


def measured_of(node: Any, context: dict[str, Any]) -> tuple[Reading, ...]:
    """The key `measured`: a reading or a list of them. Raises Wrong."""
    each = node if isinstance(node, Rows) else [node]
    return tuple(gathered(lambda one: _reading(text_of(one), context["start"]), each))


def _reading(text: str, start: date | None) -> Reading:
    found = _READING.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no reading of a layer', _WRITE)
    assert isinstance(text, Text)
    step, purpose, day, hour = (text.cut(*found.span(part)) for part in ("step", "purpose", "day", "hour"))
    at = parse_day(day, start) if start is not None else date.min
    return Reading(step, purpose, not found["not"], at, parse_hour(hour), found["words"] or "", text.place)
