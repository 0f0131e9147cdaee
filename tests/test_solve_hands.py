"""Hands of a group in a list pass: what fits beside what is placed, however it is counted."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sequencer.solve.board import OPEN
from sequencer.solve.hands import Counted, Hands
from sequencer.solve.many_hands import ManyHands

HANDS, SLOTS = 4, 30
STRETCHES = st.tuples(st.integers(0, SLOTS - 1), st.integers(1, 9), st.integers(1, 3))
"""A start, a length and an amount."""


@given(st.lists(STRETCHES, min_size=1, max_size=20), st.integers(0, 5))
def test_hands_counted_by_slot_and_by_moment_let_the_same_stretches_in(
    stretches: list[tuple[int, int, int]], taken_back: int
) -> None:
    by_slot = Hands(Counted(HANDS, (1, 2, 3), 0, SLOTS))
    by_moment = ManyHands(HANDS)
    placed = []
    for start, length, amount in stretches:
        stretch = (start, start + length, amount)
        found = by_slot.conflict(*stretch)
        assert (found is None) == (by_moment.conflict(*stretch) is None)
        if found is None:
            by_slot.put(*stretch)
            by_moment.put(*stretch)
            placed.append(stretch)
        elif len(placed) > taken_back:
            gone = placed.pop(taken_back)
            by_slot.take(*gone)
            by_moment.take(*gone)


@given(st.lists(STRETCHES, max_size=12), STRETCHES)
def test_no_start_before_the_next_try_fits(placed: list[tuple[int, int, int]], wanted: tuple[int, int, int]) -> None:
    hands = Hands(Counted(HANDS, (1, 2, 3), 0, SLOTS))
    for start, length, amount in placed:
        if hands.conflict(start, start + length, amount) is None:
            hands.put(start, start + length, amount)
    start, length, amount = wanted
    further = hands.conflict(start, start + length, amount)
    for at in range(start, start if further is None else min(further, SLOTS)):
        assert hands.conflict(at, at + length, amount) is not None


def test_an_open_stretch_lets_in_what_comes_behind_its_end_once_it_has_one() -> None:
    hands = Hands(Counted(2, (2, 1), 0, SLOTS))
    hands.put(3, OPEN, 2)
    assert hands.conflict(10, 12, 1) == OPEN
    hands.close(3, 8, 2)
    assert hands.conflict(10, 12, 1) is None
    hands.reopen(3, 8, 2)
    assert hands.conflict(10, 12, 1) == OPEN
    hands.take(3, OPEN, 2)
    assert hands.conflict(3, SLOTS, 1) is None
