"""The drying of joint compound: what was seen is held hard, the handbook table from memory is a soft check."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from waits_air import START, air_of, clock, fahrenheit, hours, steady

from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

ROWS = list(csv.DictReader((Path(__file__).parent / "data" / "joint_compound.csv").open(encoding="utf-8")))


def one_coat() -> float:
    """Hours of one coat of 1/16 in in the law's reference air."""
    typical = LAWS["joint compound"].typical
    assert typical is not None
    return typical.hours


def coat(degrees_f: float, percent: float) -> float:
    """Hours of one coat at [F] and [%]."""
    return hours("joint compound", one_coat(), steady(fahrenheit(degrees_f), percent / 100))


def test_at_70_f_and_98_percent_a_coat_takes_12_days() -> None:
    """General text repeating the handbook table (seen, secondary), 10 %."""
    assert coat(70, 98) == pytest.approx(288, rel=0.10)


def test_at_70_f_and_70_percent_a_coat_takes_about_a_day() -> None:
    """24 h in general text (seen, secondary), 26 h from memory; 15 %."""
    assert coat(70, 70) == pytest.approx(25, rel=0.15)


def test_the_middle_of_the_published_chart_is_17_to_19_hours() -> None:
    """Drywall Finishing Council chart for a coat of 1/16 in (seen): the band round 70 F and 50 %."""
    assert 16.5 <= coat(70, 50) <= 19.5


def test_the_published_good_zone_dries_within_the_middle_band() -> None:
    """Good zone above 70 F and below 40 % (seen, secondary); bands 2, 6, 10, 17 to 19 h lie in it (seen)."""
    assert 2 <= coat(100, 0) <= coat(85, 25) <= coat(70, 40) <= 17


def test_the_published_slow_bands_of_2_and_3_to_5_days_lie_in_damp_air() -> None:
    """Bands 48 h and 3 to 5 d (seen); damp air makes them, not cold alone: humidity is named the dominant factor."""
    assert coat(70, 85) == pytest.approx(48, rel=0.10)
    assert 3 * 24 <= coat(70, 91) <= coat(70, 94) <= 5 * 24


@pytest.mark.parametrize(
    ("degrees_f", "percent", "remembered"), [(70, 50, 17), (60, 50, 24), (50, 80, 78), (32, 0, 38)]
)
def test_single_cells_are_as_remembered(degrees_f: float, percent: float, remembered: float) -> None:
    """Handbook table, from memory: soft, 10 %."""
    assert coat(degrees_f, percent) == pytest.approx(remembered, rel=0.10)


def test_the_remembered_table_is_met_within_its_own_roughness() -> None:
    """All 122 cells, from memory; the law was fitted on 78 of them, so this only shows that they hang together.

    Fitted at 3.5 % root mean square on the surer 78; 4.1 % on all when all are fitted (computed).
    """
    warm = np.array([fahrenheit(float(row["temperature_f"])) for row in ROWS])
    damp = np.array([float(row["humidity_pct"]) / 100 for row in ROWS])
    remembered = np.array([float(row["hours"]) for row in ROWS])
    sure = np.array([row["confidence"] == "A" for row in ROWS])
    off = np.log(one_coat() / rate("joint compound", warm, damp) / remembered)
    assert (len(ROWS), int(sure.sum())) == (122, 78)
    assert float(np.sqrt(np.mean(off[sure] ** 2))) < 0.045
    assert float(np.max(np.abs(off))) < 0.18


def test_a_room_that_cools_and_dampens_stretches_the_rest_of_the_wait() -> None:
    """10 h at 70 F 50 %, then 60 F 70 %: 25.5 h (computed)."""
    air = air_of([fahrenheit(70)] * 10 + [fahrenheit(60)] * 10, [0.5] * 10 + [0.7] * 10)
    assert hours("joint compound", one_coat(), air) == pytest.approx(25.5, abs=0.1)


def test_twice_as_thick_dries_twice_as_long_which_is_an_assumption() -> None:
    air = steady(21.1)
    assert hours("joint compound", 17, air, deep=3.2) == pytest.approx(34, abs=0.02)


def test_saturated_air_never_dries_it() -> None:
    assert clock("joint compound", 17, steady(20.0, 1.0)).hours(START) == float("inf")
