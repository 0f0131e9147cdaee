"""A plan is called the shortest only where no other order of work, with the air it brings about, can be shorter."""

from __future__ import annotations

from pathlib import Path

from tiny_folder import planned

from sequencer.terms.minute import DAY, HOUR

STOVE = """format: 1
recipe: stove
title: A stove set up
works on: []
sources: {c: "common practice, no source"}
steps:
  fit: {hours: 16 h (c)}
"""
ODDS = "format: 1\nrecipe: odds\ntitle: Odds and ends\nworks on: []\nsources: {c: c}\nsteps:\n" + "".join(
    f"  job {number}: {{hours: 2 h (c), after: start}}\n" for number in range(8)
)
FIRST = "      odds:\n      stove: {before: odds}\n"
AIR = "\n  2 March: 8 C 70 %\n  after stove fit: heated to 25 C, 70 %"


def test_a_plan_that_warms_its_room_late_is_not_called_the_shortest(tmp_path: Path) -> None:
    """Small work first is as early as it can be, but the stove first would let the mortar set sooner."""
    files = {"recipes/stove.yaml": STOVE, "recipes/odds.yaml": ODDS}
    wait = "after 150 h, cement law"
    late = planned(tmp_path, AIR, wait=wait, on="[ceiling]", uses="      odds:\n      stove:\n", files=files)
    first = planned(tmp_path, AIR, wait=wait, on="[ceiling]", uses=FIRST, files=files)
    assert first.finish < late.finish
    assert not late.proven
    assert late.at_best <= first.finish
    assert first.proven


def test_where_the_air_changes_as_soon_as_it_can_the_shortest_plan_is_proven(tmp_path: Path) -> None:
    plan = planned(tmp_path, "\n  2 March: 6 C 60 %\n  after bed frame: heated to 20 C")
    assert plan.proven
    assert plan.finish - plan.start <= 2 * DAY + 12 * HOUR
