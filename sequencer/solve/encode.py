"""Rising functions of a start, said to CP-SAT through order literals: only where they change, never as tables."""

from __future__ import annotations

import numpy as np
from ortools.sat.python import cp_model

from sequencer.solve.problem import Slots

RUN = 4
"""A stretch on which the function rises one for one is said in one linear line if it has at least this many starts."""


class StartVariable:
    """A task's start within its trimmed starts, with a literal "at or after" wherever one is asked for.

    `var` is the start in slots, an expression over a variable that counts in steps of the task's own grid.
    """

    def __init__(self, model: cp_model.CpModel, name: str, starts: Slots) -> None:
        self.model = model
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
        self._literals: dict[int, cp_model.IntVar] = {}

    def at_or_after(self, place: int) -> cp_model.IntVar:
        """A literal that holds exactly if the start is at or after its `place`-th value (1 or more)."""
        if place not in self._literals:
            literal = self.model.new_bool_var("")
            self.model.add(self.count >= int(self.counts[place])).only_enforce_if(literal)
            self.model.add(self.count <= int(self.counts[place - 1])).only_enforce_if(~literal)
            self._literals[place] = literal
        return self._literals[place]

    def literals(self) -> dict[int, cp_model.IntVar]:
        """All literals asked for so far, by place."""
        return self._literals


def push_up(giver: StartVariable, target: cp_model.LinearExprT, values: Slots) -> None:
    """`target` is at least `values[k]` when the giver takes its k-th start. `values` never falls."""
    starts, model = giver.starts, giver.model
    lead = values - starts
    least = int(lead.min())
    always = np.minimum.accumulate(lead[::-1])[::-1]
    model.add(target >= giver.var + least)
    model.add(target >= int(values[0]))
    flat, slope = int(values[0]), least
    k, count = 1, len(starts)
    while k < count:
        need = int(values[k])
        if flat >= need or int(starts[k]) + slope >= need:
            k += 1
            continue
        literal = giver.at_or_after(k)
        if int(always[k]) == int(lead[k]) and _run(lead, k) >= RUN:
            slope = int(lead[k])
            model.add(target >= giver.var + slope).only_enforce_if(literal)
        else:
            flat = need
            model.add(target >= need).only_enforce_if(literal)
        k += 1


def hold_down(giver: StartVariable, target: cp_model.LinearExprT, values: Slots) -> None:
    """`target` is at most `values[k]` when the giver takes its k-th start. `values` never falls."""
    starts, model = giver.starts, giver.model
    lead = values - starts
    model.add(target <= giver.var + int(lead.max()))
    model.add(target <= int(values[-1]))
    flat, most = int(values[-1]), int(lead.max())
    for k in range(len(starts) - 2, -1, -1):
        allow = int(values[k])
        if flat <= allow or int(starts[k]) + most <= allow:
            continue
        flat = allow
        model.add(target <= allow).only_enforce_if(~giver.at_or_after(k + 1))


def _run(lead: Slots, k: int) -> int:
    same = np.flatnonzero(lead[k:] != lead[k])
    return int(same[0]) if len(same) else len(lead) - k
