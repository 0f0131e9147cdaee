"""Every check point: published values, and what our code makes of them. `status` says how far the source was seen."""

from __future__ import annotations

import pytest
from checkpoints import CHECKS, Line, lines

LINES = lines()


@pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line.id} {line.case} ({line.status})")
def test_a_check_point_is_met(line: Line) -> None:
    ours = CHECKS[line.id]()[line.number]
    assert line.least <= ours <= line.most


def test_every_point_has_its_figures_and_every_figure_its_line() -> None:
    assert {id: len(figures()) for id, figures in CHECKS.items()} == {
        id: sum(line.id == id for line in LINES) for id in dict.fromkeys(line.id for line in LINES)
    }


def test_the_points_are_numbered_without_a_gap() -> None:
    """So many of each kind; a point that is lost leaves a hole."""
    counts = {"C": 16, "G": 7, "P": 11, "W": 2, "D": 4, "H": 1, "F": 2, "S": 4, "T": 3}
    assert list(CHECKS) == [f"{kind}{number:02}" for kind, count in counts.items() for number in range(1, count + 1)]
