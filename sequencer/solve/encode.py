"""Rising functions of a start, said to CP-SAT through order literals: only where they change, never as tables."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from ortools.sat.python import cp_model

from sequencer.solve.lines import Lines, opposite
from sequencer.solve.problem import Slots

RUN = 4
"""A stretch on which the function rises one for one is said in one linear line if it has at least this many starts."""


class StartVariable:
    """A task's start within its trimmed starts, with a literal "at or after" wherever one is asked for.

    `var` is the start in slots, an expression over a variable that counts in steps of the task's own grid.
    """

    def __init__(self, model: cp_model.CpModel, lines: Lines, name: str, starts: Slots) -> None:
        self.model, self.lines = model, lines
        self.starts = starts
        self.first = int(starts[0])
        self.step = int(np.gcd.reduce(np.diff(starts))) if len(starts) > 1 else 1
        counts = (starts - self.first) // self.step
        breaks = np.flatnonzero(np.diff(counts) != 1)
        lows = counts[np.concatenate([[0], breaks + 1])]
        highs = counts[np.concatenate([breaks, [len(counts) - 1]])]
        spans = [[int(low), int(high)] for low, high in zip(lows, highs, strict=True)]
        self.counts = counts
        self.count = model.new_int_var_from_domain(cp_model.Domain.from_intervals(spans), name)
        self.var: cp_model.LinearExprT = self.step * self.count + self.first
        self.index = self.count.index
        self._literals: dict[int, cp_model.IntVar] = {}

    def at_or_after(self, place: int) -> cp_model.IntVar:
        """A literal that holds exactly if the start is at or after its `place`-th value (1 or more)."""
        if place not in self._literals:
            literal, one = self.model.new_bool_var(""), ((self.index, 1),)
            self.lines.at_least(one, int(self.counts[place]), (literal.index,))
            self.lines.at_most(one, int(self.counts[place - 1]), (opposite(literal.index),))
            self._literals[place] = literal
        return self._literals[place]

    def literals(self) -> dict[int, cp_model.IntVar]:
        """All literals asked for so far, by place."""
        return self._literals


Target: TypeAlias = StartVariable | cp_model.IntVar
"""What a rising function of a start binds: another start, or a variable that counts slots, days, half-days."""


def push_up(giver: StartVariable, target: Target, values: Slots) -> None:
    """`target` is at least `values[k]` when the giver takes its k-th start. `values` never falls."""
    said = _Said(giver, target)
    rises = values - giver.starts
    always = np.minimum.accumulate(rises[::-1])[::-1].tolist()
    starts, lead, needs = giver.starts.tolist(), rises.tolist(), values.tolist()
    flat, slope = needs[0], min(lead)
    said.never_before(slope)
    said.at_least(flat)
    for k in range(1, len(starts)):
        need = needs[k]
        if flat >= need or starts[k] + slope >= need:
            continue
        literal = giver.at_or_after(k).index
        if always[k] == lead[k] and _run(lead, k) >= RUN:
            slope = lead[k]
            said.never_before(slope, (literal,))
        else:
            flat = need
            said.at_least(need, (literal,))


def hold_down(giver: StartVariable, target: Target, values: Slots) -> None:
    """`target` is at most `values[k]` when the giver takes its k-th start. `values` never falls."""
    said = _Said(giver, target)
    starts, allowed = giver.starts.tolist(), values.tolist()
    flat, most = allowed[-1], int((values - giver.starts).max())
    said.never_after(most)
    said.at_most(flat)
    for k in range(len(starts) - 2, -1, -1):
        allow = allowed[k]
        if flat <= allow or starts[k] + most <= allow:
            continue
        flat = allow
        said.at_most(allow, (opposite(giver.at_or_after(k + 1).index),))


class _Said:
    """What a giver says of a target."""

    def __init__(self, giver: StartVariable, target: Target) -> None:
        self.lines = giver.lines
        if isinstance(target, StartVariable):
            index, self.step, self.first = target.index, target.step, target.first
        else:
            index, self.step, self.first = target.index, 1, 0
        self.alone = ((index, self.step),)
        self.apart = (*self.alone, (giver.index, -giver.step))
        self.between = giver.first - self.first

    def at_least(self, value: int, where: tuple[int, ...] = ()) -> None:
        self.lines.at_least(self.alone, value - self.first, where)

    def at_most(self, value: int, where: tuple[int, ...] = ()) -> None:
        self.lines.at_most(self.alone, value - self.first, where)

    def never_before(self, gap: int, where: tuple[int, ...] = ()) -> None:
        """At least so much after the giver."""
        self.lines.at_least(self.apart, gap + self.between, where)

    def never_after(self, gap: int) -> None:
        """At most so much after the giver."""
        self.lines.at_most(self.apart, gap + self.between)


def _run(lead: list[int], k: int) -> int:
    """How many starts from the k-th on have its lead, counted up to a run."""
    end = k
    while end < len(lead) and end < k + RUN and lead[end] == lead[k]:
        end += 1
    return end - k
