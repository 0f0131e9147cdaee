"""Of all plans that hand over as early, the one made is the best by every goal as preferred, and the only such one.

`tests/benchmarks/brute_force.py --goals` compares any number more.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from best_plans import compare_goals

SEEDS = (2, 5, 9, 12, 13, 14, 18, 19, 21, 24, 25, 26)
"""Seeds of jobs with a plan, the quick ones of the first thirty."""


@pytest.mark.parametrize("seed", SEEDS)
def test_a_plan_comes_to_as_little_as_the_best_of_all_plans_and_no_other_does(seed: int, tmp_path: Path) -> None:
    compared = compare_goals(seed, tmp_path)
    assert compared is not None
    assert compared.planned == compared.tried
    assert compared.plans == 1
