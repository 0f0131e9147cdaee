"""Lines of a CP-SAT model written straight into its message: a model has tens of thousands, and expressions cost more
than what they say. Variables and literals are numbers here; a literal's opposite is `opposite(literal)`."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ortools.sat.python import cp_model

FARTHEST = cp_model.INT_MAX
"""No bound."""


def opposite(literal: int) -> int:
    """The number of the literal that holds exactly if this one does not."""
    return -literal - 1


class Lines:
    """Writes into one model."""

    def __init__(self, model: cp_model.CpModel) -> None:
        self._constraints = model.proto.constraints
        self._hint = model.proto.solution_hint

    def within(self, terms: Sequence[tuple[int, int]], low: int, high: int, where: Iterable[int] = ()) -> None:
        """The sum of these variables, each times its factor, lies within bounds where all these literals hold."""
        line = self._constraints.add()
        line.enforcement_literal.extend(where)
        for variable, factor in terms:
            line.linear.vars.append(variable)
            line.linear.coeffs.append(factor)
        line.linear.domain.extend((low, high))

    def at_least(self, terms: Sequence[tuple[int, int]], low: int, where: Iterable[int] = ()) -> None:
        """As `within`, without an upper bound."""
        self.within(terms, low, FARTHEST, where)

    def at_most(self, terms: Sequence[tuple[int, int]], high: int, where: Iterable[int] = ()) -> None:
        """As `within`, without a lower bound."""
        self.within(terms, -FARTHEST, high, where)

    def hint(self, values: Iterable[tuple[int, int]]) -> None:
        """Values of variables in a plan at hand."""
        for variable, value in values:
            self._hint.vars.append(variable)
            self._hint.values.append(value)
