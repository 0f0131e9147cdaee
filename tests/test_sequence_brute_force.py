"""Tiny random jobs, read from files and planned, hand over in the half-day a brute force finds, or do not fit at all.

`tests/benchmarks/brute_force.py` compares any number more.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from brute_force import compare
from random_jobs import RandomJob

FITS = (
    3, 8, 12, 13, 15, 16, 17, 20, 21, 24, 25, 30, 31, 35, 36, 39, 40, 41, 43, 54, 60, 64, 65, 66, 80, 82, 83, 84,
    85, 86, 87, 89, 102, 106, 108,
)  # fmt: skip
"""Seeds of jobs with a plan, the quick ones among the first hundred."""

FITS_NOT = (4, 23, 38, 44, 51, 56, 68, 76, 78, 88)
"""Seeds of jobs without one."""

GIVES_UP_A_VISIT = 308
"""The seed of a job whose firm visit does not fit."""


@pytest.mark.parametrize("seed", FITS)
def test_hand_over_is_as_early_as_trying_every_start_finds(seed: int, tmp_path: Path) -> None:
    compared = compare(seed, tmp_path)
    assert compared.planned is not None
    assert compared.planned == compared.tried


@pytest.mark.parametrize("seed", FITS_NOT)
def test_no_order_fits_where_trying_every_start_finds_none(seed: int, tmp_path: Path) -> None:
    compared = compare(seed, tmp_path)
    assert compared.planned is None
    assert compared.tried is None


def test_a_firm_visit_is_given_up_only_where_no_order_fits_with_it(tmp_path: Path) -> None:
    compared = compare(GIVES_UP_A_VISIT, tmp_path)
    assert compared.firm_visits_fit is False
    assert compared.planned == compared.tried is not None


def test_the_random_jobs_hold_every_matter_that_is_compared(tmp_path: Path) -> None:
    for seed in (*FITS, *FITS_NOT, GIVES_UP_A_VISIT):
        RandomJob(seed).write(tmp_path / str(seed))
    text = "\n".join(path.read_text("utf-8") for path in sorted(tmp_path.rglob("*.yaml")))
    for word in (
        "cement law", "water film law", "fixed", "within", "of ready", "never under", "stops", "spoils",
        "keep off", "leave it", "is done", "machine dust", "wet film", "shaking", "in one go", "hold:",
        "hour known: no", "ask by", "cushion", "notice", "shortest visit", "travel", "hands: 2", "at once: 2",
        "reached through", "open framing", "takes back", "needs", "gives", "after: r0", "before: r0", "made after",
        "lead", "booked", "noise", "house water", "water off", "people live here", "on a plank", "at the door",
        "place: shop", "kind: look", "at least 8 C", "4 h before", "otherwise", "heated to",
    ):  # fmt: skip
        assert word in text, word
