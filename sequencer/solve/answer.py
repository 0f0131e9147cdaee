"""What the solver gives back: starts, and how far each goal is proven."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.network.model import Window
from sequencer.terms.minute import Minute


@dataclass(frozen=True)
class GoalReached:
    """A goal's value and the best value not ruled out: half-days for hand-over, weighted slots for the rest."""

    name: str
    value: int
    bound: int


@dataclass(frozen=True)
class Answer:
    """A start for every task, hand-over included [Minute]; `hand_over_at_best`: the earliest hand-over not ruled out.

    `slips`: how much later each task may start before hand-over moves, what begins before it and the order kept,
    in the air of the plan [min].
    `released`: ids of steps whose firm visit had to be given up; `fewest`: it is proven that no fewer would do.
    `interrupted`: a search was stopped by somebody.
    """

    starts: dict[str, Minute]
    goals: tuple[GoalReached, ...]
    hand_over_at_best: Minute
    slips: dict[str, int]
    released: tuple[str, ...] = ()
    fewest: bool = True
    interrupted: bool = False


class NoAnswer(Exception):
    """No times fit all the rules. `certain`: proven, else none was found. `blocked`: tasks that found no place.

    `windows`: those that were missed most often where none was found.
    """

    def __init__(self, certain: bool, blocked: tuple[str, ...], windows: tuple[Window, ...] = ()) -> None:
        super().__init__(", ".join(blocked))
        self.certain = certain
        self.blocked = blocked
        self.windows = windows
