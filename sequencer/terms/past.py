"""What lies behind a job: who was asked and when, and what has happened of its steps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sequencer.terms.minute import Minute, Span

PastState = Literal["done", "under way", "failed", "not told"]


@dataclass(frozen=True)
class Asked:
    """A trade is asked for a step since `at`. `earliest`: the visit its notice allows, counted from then; `wanted`: the
    visit it was asked for, None if no day was said."""

    at: Minute
    earliest: Minute | None
    wanted: Minute | None = None

    @property
    def soonest(self) -> Minute | None:
        """The moment before which they do not come."""
        return max((one for one in (self.earliest, self.wanted) if one is not None), default=None)


@dataclass(frozen=True)
class Past:
    """What has happened of a step, and what is left of one under way: its spans of work.

    `state`: a hold may have failed; what is not told counts as gone to plan.
    """

    pieces: tuple[Span, ...]
    state: PastState
