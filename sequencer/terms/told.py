"""The plan people were told, as far as the next plan looks back at it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from sequencer.terms.minute import Minute, Span


@dataclass(frozen=True)
class ToldVisit:
    """A visit somebody was told: its lasting id, and the ids of its steps."""

    id: str
    trade: str
    start: Minute
    steps: tuple[str, ...]


@dataclass(frozen=True)
class ToldOrder:
    """When an order was needed, and by when it was to be placed; None: it was placed already."""

    needed: Minute
    order_by: Minute | None


@dataclass(frozen=True)
class Told:
    """What people were told: hand-over, the spans of work of every step by its id, the visits.

    `orders`: by id, as far as they were kept: plans accepted long ago say nothing of them.
    `number`: how often a plan of this job was accepted. `last_visit`: by trade, the highest number a visit of theirs
    ever had, so that no number is given twice. `recipes_kept`: recipes whose text is another by now, with the place of
    that text; the plan keeps to the text people were told.
    """

    number: int
    finish: Minute
    pieces: Mapping[str, tuple[Span, ...]]
    visits: tuple[ToldVisit, ...] = ()
    last_visit: Mapping[str, int] = field(default_factory=dict)
    recipes_kept: tuple[tuple[str, str], ...] = ()
    orders: Mapping[str, ToldOrder] = field(default_factory=dict)

    def needed(self, order: str, steps: Iterable[str]) -> Minute | None:
        """When an order for these steps was needed; None if nobody was told of any of it."""
        if order in self.orders:
            return self.orders[order].needed
        return min((self.starts[id] for id in steps if id in self.starts), default=None)

    @cached_property
    def starts(self) -> dict[str, Minute]:
        """The start of every step people were told, by its id."""
        return {id: pieces[0][0] for id, pieces in self.pieces.items()}
