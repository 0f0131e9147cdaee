"""A fact: what really happened, one line of the site book, never rewritten."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, Literal

from sequencer.terms.minute import Minute, Span
from sequencer.terms.place import Place

FactKind = Literal[
    "began",
    "done",
    "measured",
    "ready",
    "passed",
    "failed",
    "late",
    "away",
    "found",
    "ordered",
    "delivered",
    "asked",
    "booked",
    "released",
    "told",
    "note",
]

OF_STEPS: Final = frozenset({"began", "done", "ready", "passed", "failed", "found", "asked", "booked", "released"})
"""Kinds that are about a step. `measured` and `note` may be; a measured air is about a room."""

OF_TRADES: Final = frozenset({"late", "away", "told"})
"""Kinds that are about somebody: a trade, or for `told` the client."""

OF_ORDERS: Final = frozenset({"ordered", "delivered"})
"""Kinds that are about an order."""

CLIENT: Final = "client"
"""Who is told, and who says yes, without being a trade."""

_ONE_VISIT: Final = frozenset({"asked", "booked", "released"})
_ONE_VERDICT: Final = frozenset({"passed", "failed"})
_ONE_EACH: Final = frozenset({"began", "done", "late", "ordered", "delivered"})


@dataclass(frozen=True)
class Value:
    """Something read off a meter or a mark: `what` ("level"), `figure` with its `unit`, and the limits it has to keep.

    `least`, `most`: in the same unit, None where there is none.
    """

    what: str
    figure: float
    unit: str
    least: float | None = None
    most: float | None = None

    @property
    def within(self) -> bool | None:
        """Whether it keeps its limits; None if it has none."""
        if self.least is None and self.most is None:
            return None
        return (self.least is None or self.figure >= self.least) and (self.most is None or self.figure <= self.most)


@dataclass(frozen=True)
class Fact:
    """One standing line of the site book.

    `about`: the id of a step, a trade (or the client), an order, or a room whose air was read; "" for a note on the
    job. `words`: what stands behind that, as written. `happened`, `written`: when it was so, and when it was noted.

    ready, measured: of a layer, `purpose` and whether it is `ready` for it. measured: `temperature` [C] and `humidity`
    [0..1] of a room's air, or a `value`. late, away: `span` without the trade. asked, booked: `at`, the start of the
    visit. ordered, delivered: `at`, when all of it (for what came `short`: the rest) will be on site. found: `minutes`
    [min] of extra work `by` a trade. What a kind does not have is None.
    """

    number: int
    kind: FactKind
    about: str
    happened: Minute
    written: Minute
    words: str
    place: Place
    purpose: str | None = None
    ready: bool = True
    at: Minute | None = None
    span: Span | None = None
    minutes: int | None = None
    by: str | None = None
    short: bool = False
    temperature: float | None = None
    humidity: float | None = None
    value: Value | None = None

    @property
    def reading(self) -> str:
        """What a reading of a layer found, without what it is ready for: "84 %"."""
        return self.words.partition(",")[2].strip() if self.purpose is not None else self.words

    @property
    def slot(self) -> tuple[object, ...]:
        """What a later fact replaces: the same happening told again, or what it has become. Facts of a slot of their
        own stand for ever."""
        if self.kind in _ONE_VISIT:
            return ("visit", self.about)
        if self.kind in _ONE_VERDICT:
            return ("verdict", self.about)
        if self.kind in _ONE_EACH:
            return (self.kind, self.about)
        if self.kind == "ready" or (self.kind == "measured" and self.purpose is not None):
            return ("layer", self.about, self.purpose, self.happened)
        return (self.number,)


def latest(facts: Iterable[Fact]) -> tuple[Fact, ...]:
    """The facts that stand, in the order of the book: of each slot the last line."""
    slots: dict[tuple[object, ...], Fact] = {}
    for fact in facts:
        slots.pop(fact.slot, None)
        slots[fact.slot] = fact
    return tuple(sorted(slots.values(), key=lambda fact: fact.number))
