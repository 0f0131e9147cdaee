"""The table of laws as a page to read: docs/waits.md is this page."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.terms.minute import HOUR
from sequencer.waits.families.by_the_clock import Fixed
from sequencer.waits.law import Law
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS
from sequencer.waits.words import air_words, length

_INTRODUCTION = """\
# The laws of waiting

Every wait is one shape: progress adds up hour by hour at a pace that depends on the room's air, and the layer is ready
when progress reaches the hours of the recipe. The pace is 1 in the reference air; there a wait takes just its hours.
Air is constant within a clock hour (UTC); inside it progress is exact, and ready is rounded up to a whole minute.

    ready for:
      grout: after 24 h at 21 C, cement law (c)
      cover: after 16 h at 21 C 50 %, water film law, never under 12 h, 0.7 to 2 times (c)
      water: after 24 h at 23 C 50 %, sealant law, 6 mm deep (c)
      tile: after 90 min, setting compound law, then 17 h at 21 C 50 %, joint compound law (c)
      load: to 70 % strength, cement law (c)

`at` names the air the hours hold in; what it leaves out is the law's own reference, below. `never under` is by the
clock. `deep` is for laws that know what depth does; the hours of the recipe then hold for the reference depth below.
`stops below 5 C` lets progress stand still in such hours, `spoils below 2 C` forbids a start whose wait would meet one.
`then` begins a stage that follows when the one before is over. `to 70 % strength` stands for the hours that the curve
of EN 1992-1-1 3.1.2 (6) gives for that share of the 28-day strength at 20 C. Laws that do not feel humidity go by the
warmth of the floor where a layer lies on it and the job says it. A layer that gives off water dries in the air it makes
damp.
The pace is never held inside the air a law is known for; where the air is outside on average, the working says so.

The figures in the small tables are what 24 h in the law's reference air become.

A law is a middling figure. How far hours scatter from job to job, and how sure the constants are, is engineering
judgement unless a check says otherwise; a recipe may give its own range. The data sheet of the material in hand
governs, and a reading of the layer itself wins over both.
"""

_TEMPERATURES = (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)
_HUMIDITIES = (0.3, 0.5, 0.7, 0.85)
_A_DAY = 24.0


def laws_as_markdown() -> str:
    """The whole page, ending in a line break."""
    return "\n".join([_INTRODUCTION, *(_section(law) for law in LAWS.values())])


def _section(law: Law) -> str:
    facts = [
        ("law", law.family.words()),
        ("reference air", air_words(law.temperature, law.humidity if law.family.humidity_counts else None)),
        ("depth", law.depth.words() if law.depth else "does not count"),
        ("known to hold", _known_for(law)),
        ("from job to job", _scatter(law)),
        ("spread", law.spread),
        ("source", law.source),
        ("checked against", law.checked),
    ]
    if isinstance(law.family, Fixed):
        facts = [fact for fact in facts if fact[0] not in ("reference air", "known to hold")]
    if law.typical is not None:
        facts.insert(3, ("for example", f"{law.typical.what}: {length(law.typical.hours * HOUR)} in the reference air"))
    return "\n".join([f"## {law.name}", "", *_grid(("", ""), facts), "", *_stretched(law)])


def _known_for(law: Law) -> str:
    warm = f"{law.warm[0]:g} to {law.warm[1]:g} C"
    return f"{warm}, {100 * law.damp[0]:g} to {100 * law.damp[1]:g} %" if law.family.humidity_counts else warm


def _scatter(law: Law) -> str:
    low, high = law.range
    return f"nine in ten take {low:.2f} to {high:.2f} of the hours" if law.scatter else "none"


def _stretched(law: Law) -> list[str]:
    """What a day in the reference air becomes at other temperatures, and for laws that feel it at other humidities."""
    if isinstance(law.family, Fixed):
        return []
    head = ("", *(f"{warm:g} C" for warm in _TEMPERATURES))
    humidities = _HUMIDITIES if law.family.humidity_counts else (law.humidity,)
    names = [f"{100 * damp:g} %" if law.family.humidity_counts else "24 h" for damp in humidities]
    rows = [
        (name, *(_day_at(law.name, warm, damp) for warm in _TEMPERATURES))
        for name, damp in zip(names, humidities, strict=True)
    ]
    return [*_grid(head, rows), ""]


def _day_at(law: str, temperature: float, humidity: float) -> str:
    pace = rate(law, temperature, humidity)
    return length(_A_DAY * HOUR / pace) if pace > 0.0 else "stands still"


def _grid(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    return [_row(head), _row(["---"] * len(head)), *(_row(row) for row in rows)]


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"
