"""What is worked out of a room whose layers dry at certain hours, for all airs of the job in which they do."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias

from sequencer.network.model import MinuteFunction, Rule
from sequencer.terms.minute import Minute, Span
from sequencer.waits.clock import WaitClock
from sequencer.waits.layer import Layer
from sequencer.waits.progress import Air

ClockKey: TypeAlias = tuple[Air, int, int | None]
"""The air, the id of a wait, and that of the wait over which its own layer dries."""

Wetting: TypeAlias = tuple[tuple[str, tuple[Layer, Span]], ...]
"""The layers that wet a room, by step, with the whole hours in which they do."""

RoomKey: TypeAlias = tuple[str, Wetting]


class InRoom:
    """A room with layers that dry at certain hours.

    `airs`: by step, with its own layer or without. `said`: functions of clocks, by what they are of, step and wait.
    `rules`: by the id of what they say in any air; `of_air`: by step, those that only an air has. `spans`: from the end
    of a step's work until its layer is dry.
    """

    def __init__(self) -> None:
        self.airs: dict[tuple[str, bool], Air] = {}
        self.clocks: dict[ClockKey, WaitClock] = {}
        self.said: dict[tuple[Callable[..., Any], str, int], MinuteFunction] = {}
        self.rules: dict[int, Rule] = {}
        self.of_air: dict[str, tuple[Rule, ...]] = {}
        self.spans: dict[tuple[str, Minute], Span] = {}
