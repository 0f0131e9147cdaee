"""A trimmed problem as a CP-SAT model."""

from __future__ import annotations

import numpy as np
from ortools.sat.python import cp_model

from sequencer.solve.encode import StartVariable, hold_down, push_up
from sequencer.solve.lines import Lines
from sequencer.solve.meeting import kept_apart
from sequencer.solve.problem import Problem, SlotClaim, Slots
from sequencer.solve.trim import Trimmed


class Model:
    """The CP-SAT model of a problem with every start inside its trimmed range."""

    def __init__(self, problem: Problem, trimmed: Trimmed) -> None:
        self.problem = problem
        self.trimmed = trimmed
        self.cp = cp_model.CpModel()
        self.lines = Lines(self.cp)
        self.interrupted = False
        self.start = [
            StartVariable(self.cp, self.lines, f"s{i}", self.kept(i, starts)) for i, starts in enumerate(problem.starts)
        ]
        self.moments = np.unique(np.concatenate([variable.starts for variable in self.start]))
        self._intervals: dict[tuple[int, int, bytes], cp_model.IntervalVar] = {}
        for arc in problem.arcs:
            self._arc(arc.before, arc.after, self.kept(arc.before, arc.release))
        for latest in problem.latests:
            hold_down(self.start[latest.before], self.start[latest.after], self.kept(latest.before, latest.latest))
        for n, claims in kept_apart(problem, self.kept):
            self._group(n, claims)

    def kept(self, task: int, values: Slots) -> Slots:
        """The part of an array by starts that the trimmed range keeps."""
        return values[self.trimmed.first[task] : self.trimmed.last[task] + 1]

    def _arc(self, before: int, after: int, release: Slots) -> None:
        starts = self.start[after].starts
        if release[-1] <= starts[0]:
            return
        places = np.minimum(starts.searchsorted(release), len(starts) - 1)
        snapped = np.maximum(starts[places], release)
        push_up(self.start[before], self.start[after], snapped)

    def _group(self, n: int, claims: list[SlotClaim]) -> None:
        intervals = [self._interval(claim) for claim in claims]
        if n == 1:
            self.cp.add_no_overlap(intervals)
        else:
            self.cp.add_cumulative(intervals, [claim.amount for claim in claims], n)

    def _interval(self, claim: SlotClaim) -> cp_model.IntervalVar:
        """From the claim's start to its end; the same claim in several groups is one interval."""
        until = self.kept(claim.last, claim.until)
        key = (claim.task, claim.last, until.tobytes())
        if key not in self._intervals:
            self._intervals[key] = self._new_interval(self.start[claim.task], self.start[claim.last], until)
        return self._intervals[key]

    def _new_interval(self, begin: StartVariable, last: StartVariable, until: Slots) -> cp_model.IntervalVar:
        """An end that changes with the start is pushed up, to the next start of anybody, and never held."""
        if last is begin and int(np.ptp(until - begin.starts)) == 0:
            return self.cp.new_fixed_size_interval_var(begin.var, int(until[0] - begin.starts[0]), "")
        next_start = self.moments[np.minimum(self.moments.searchsorted(until), len(self.moments) - 1)]
        snapped = np.maximum(next_start, until)
        far = int(snapped[-1])
        size = self.cp.new_int_var(0, far - begin.first, "")
        end = self.cp.new_int_var(begin.first, far, "")
        push_up(last, end, snapped)
        return self.cp.new_interval_var(begin.var, size, end, "")

    def literals(self) -> int:
        """How many order literals it has."""
        return sum(len(variable.literals()) for variable in self.start)

    def hint(self, places: list[int]) -> None:
        """Hints a whole plan, order literals included."""
        for task, place in enumerate(places):
            variable = self.start[task]
            kept = place - self.trimmed.first[task]
            values = [(literal.index, int(kept >= at)) for at, literal in variable.literals().items()]
            self.lines.hint([(variable.index, int(variable.counts[kept])), *values])

    def half_day(self) -> Slots:
        """The half-day of every start that hand-over has left."""
        return self.kept(self.problem.hand_over, self.problem.half_day)

    def counts_starts(self) -> bool:
        """True if goal 1 is counted in the start of hand-over itself: no two of those left lie in one half-day."""
        half_day = self.half_day()
        return len(np.unique(half_day)) == len(half_day)

    def minimise_half_day(self, at_least: int) -> None:
        """Goal 1: the half-day of hand-over, `at_least` or later."""
        hand_over, half_day = self.start[self.problem.hand_over], self.half_day()
        first = int(half_day.searchsorted(at_least))
        if 0 < first < len(half_day):
            self.cp.add(hand_over.count >= int(hand_over.counts[first]))
        if self.counts_starts():
            self.cp.minimize(hand_over.var)
            return
        value = self.cp.new_int_var(int(half_day[0]), int(half_day[-1]), "half_day")
        for k in (np.flatnonzero(np.diff(half_day)) + 1).tolist():
            self.cp.add(value >= int(half_day[k])).only_enforce_if(hand_over.at_or_after(k))
        self.cp.minimize(value)

    def starts_sum(self) -> cp_model.LinearExprT:
        """The weighted sum of starts, counted from each task's first possible start."""
        return sum(
            weight * (variable.var - int(variable.starts[0]))
            for weight, variable in zip(self.problem.weights, self.start, strict=True)
        )

    def minimise_starts(self) -> None:
        """The last goal: the weighted sum of starts."""
        self.cp.minimize(self.starts_sum())
