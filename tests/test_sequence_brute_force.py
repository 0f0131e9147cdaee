"""Tiny random jobs, read from files and planned, hand over in the half-day a brute force finds, or do not fit at all.

`tests/benchmarks/brute_force.py` compares any number more.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from brute_force import compare
from random_jobs import RandomJob

FITS = (
    2, 5, 9, 12, 13, 14, 18, 19, 21, 24, 25, 26, 29, 30, 32, 35, 36, 40, 42, 46, 48, 49, 52, 57, 60, 62, 64, 66,
    67, 76, 79, 84, 85, 87, 88, 91,
    1012, 1013, 1026, 1036, 1059, 1077, 1082, 1084, 1091, 1107, 1112, 1121, 1128, 1145, 1146,
)  # fmt: skip
"""Seeds of jobs with a plan, the quick ones among the first hundred, and of those that ask for more."""

FITS_NOT = (3, 6, 16, 28, 31, 33, 39, 41, 44, 45, 1009, 1019, 1023, 1029, 1031, 1034, 1055, 1094)
"""Seeds of jobs without one."""

GIVES_UP_VISITS = (63, 95, 190, 329)
"""Seeds of jobs whose firm visits do not all fit."""


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


@pytest.mark.parametrize("seed", GIVES_UP_VISITS)
def test_firm_visits_are_given_up_only_where_no_order_fits_with_one_more_of_them(seed: int, tmp_path: Path) -> None:
    compared = compare(seed, tmp_path)
    assert compared.given_up
    assert not compared.more_fit
    assert compared.planned is not None
    assert compared.planned == compared.tried


def test_the_random_jobs_hold_every_matter_that_is_compared(tmp_path: Path) -> None:
    for seed in (*FITS, *FITS_NOT, *GIVES_UP_VISITS):
        RandomJob(seed).write(tmp_path / str(seed))
    text = "\n".join(path.read_text("utf-8") for path in sorted(tmp_path.rglob("*.yaml")))
    for word in (
        "cement law", "water film law", "fixed", "within", "of ready", "never under", "stops", "spoils",
        "keep off", "leave it", "is done", "machine dust", "wet film", "shaking", "in one go", "hold:",
        "hour known: no", "ask by", "cushion", "notice", "shortest visit", "travel", "hands: 2", "at once: 2",
        "reached through", "open framing", "takes back", "needs", "gives", "after: r0", "before: r0", "made after",
        "lead", "booked", "noise", "house water", "water off", "people live here", "on a plank", "at the door",
        "place: shop", "kind: look", "at least 8 C", "4 h before", "otherwise", "heated to",
        "access:", "lift: yes", "lift: [", "toilet: off", "toilet: back", "nights without", "look in", "fumes: for",
        "gone by", "decisions", "once decided", "check:", "must haves",
    ):  # fmt: skip
        assert word in text, word
