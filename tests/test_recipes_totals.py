"""What the recipes add up to in a hall bath of the usual size, against published totals.

Published day counts of contractors, trade press and diaries, 2014 to 2025: 10 to 25 working days for crews; a table of
steps shaped to them gives 100 h of one's own and 132 h of all trades, 19 working days for two and 26 for one (its hours
are common practice, no source).
"""

from __future__ import annotations

import pytest
from hall_bath import all_hours, own_hours, share, working_days

DRAWS = 8


def test_the_hours_of_a_hall_bath_come_to_those_published() -> None:
    assert own_hours() == pytest.approx(100, rel=0.1)
    assert all_hours() == pytest.approx(132, rel=0.1)


def test_two_people_take_as_long_as_the_table_says() -> None:
    assert working_days(2) == pytest.approx(19, abs=2)


def test_two_people_take_10_to_25_working_days_in_half_to_four_fifths_of_all_cases() -> None:
    assert 10 <= share(2, 0.5, DRAWS) <= share(2, 0.8, DRAWS) <= 25


def test_one_man_takes_15_to_40_percent_longer() -> None:
    assert 1.15 <= working_days(1) / working_days(2) <= 1.4
    assert 1.15 <= share(1, 0.5, DRAWS) / share(2, 0.5, DRAWS) <= 1.4
