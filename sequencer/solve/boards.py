"""The boards of a problem's groups, as list passes need them: one for each group, empty for every pass."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TypeAlias

from sequencer.solve.board import Board
from sequencer.solve.hands import MOST, Counted, Hands
from sequencer.solve.many_hands import ManyHands
from sequencer.solve.problem import Group, Problem

FEW = 3
"""Amounts that claims of a group take, up to which its hands are counted slot by slot. A matter of speed alone."""

AnyBoard: TypeAlias = Board | Hands | ManyHands


class Boards:
    """Makes the boards."""

    def __init__(self, problem: Problem) -> None:
        self._makers = [_maker(problem, group) for group in problem.groups]

    def empty(self) -> list[AnyBoard]:
        """The board of each group with nothing placed."""
        return [make() for make in self._makers]


def _maker(problem: Problem, group: Group) -> Callable[[], AnyBoard]:
    if group.n == 1:
        return Board
    amounts = tuple(sorted({claim.amount for claim in group.claims}))
    if group.n > MOST or len(amounts) > FEW:
        return partial(ManyHands, group.n)
    begins = [problem.starts[claim.task] if claim.begin is None else claim.begin for claim in group.claims]
    first, last = min(int(begin[0]) for begin in begins), max(int(begin[-1]) for begin in begins)
    return partial(Hands, Counted(group.n, amounts, first, last + 1))
