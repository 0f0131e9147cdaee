"""Curing days of DIN 1045-3 (seen, three reproductions agree): the table that pins how cement feels the cold."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "din_1045_3.csv").open(encoding="utf-8")))
GAS_CONSTANT = 8.314462618e-3


def column(strength: str) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Lower edges of the temperature bands [C] and the days printed for them."""
    cells = [(float(row["from_c"]), float(row["days"])) for row in ROWS if row["strength"] == strength]
    return np.array([warm for warm, _ in cells]), np.array([days for _, days in cells])


def days_by_law(law: str, strength: str) -> NDArray[np.float64]:
    """The law's days at the lower edges, its one free figure set to fit the column best."""
    warm, days = column(strength)
    shape = 1.0 / rate(law, warm, np.full(len(warm), 0.5))
    return np.asarray(shape * np.exp(np.mean(np.log(days / shape))))


@pytest.mark.parametrize(
    ("strength", "energy"), [("rapid", 39.0), ("medium", 39.0), ("slow", 56.6), ("very slow", 56.9)]
)
def test_the_table_implies_the_energies_our_laws_have(strength: str, energy: float) -> None:
    """Regression of ln(days) on 1/T at the lower edges (computed from what was seen)."""
    warm, days = column(strength)
    slope = np.polyfit(1.0 / (warm + 273.15), np.log(days), 1)[0]
    assert slope * GAS_CONSTANT == pytest.approx(energy, abs=0.5)


@pytest.mark.parametrize(
    ("law", "strengths"),
    [("cement", ("rapid", "medium")), ("rapid cement", ("rapid",)), ("slow cement", ("slow", "very slow"))],
)
def test_the_page_of_laws_reports_how_far_a_law_is_off_the_table(law: str, strengths: tuple[str, ...]) -> None:
    off = np.concatenate([np.abs(days_by_law(law, one) / column(one)[1] - 1) for one in strengths])
    said = f"off by {100 * off.max():.0f} % at worst"
    assert said in LAWS[law].checked
    assert f"{100 * off.mean():.0f} % in the mean" in LAWS[law].checked
    assert off.max() < 0.5


@pytest.mark.parametrize(("strength", "law"), [("rapid", "cement"), ("medium", "cement"), ("slow", "slow cement")])
def test_no_day_of_the_table_is_missed_by_more_than_a_day(strength: str, law: str) -> None:
    assert np.max(np.abs(days_by_law(law, strength) - column(strength)[1])) < 1.0


@pytest.mark.parametrize(
    ("degrees", "strength", "law", "printed"),
    [(22.0, "medium", "cement", 2), (12.0, "slow", "slow cement", 7), (7.0, "very slow", "slow cement", 15)],
)
def test_a_look_up_in_the_table_is_a_look_up_by_our_law(degrees: float, strength: str, law: str, printed: int) -> None:
    """DIN's own look-ups (seen), exact at the lower edge of their band to within the table's rounding to whole days."""
    warm, days = column(strength)
    band = int(np.flatnonzero(warm <= degrees)[0])
    assert days[band] == printed
    assert days_by_law(law, strength)[band] == pytest.approx(printed, abs=1.0)
