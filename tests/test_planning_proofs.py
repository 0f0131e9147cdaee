"""A plan is called the shortest only where no other order of work, with the air it brings about, can be shorter."""

from __future__ import annotations

from pathlib import Path

from tiny_folder import TODAY, folder, planned

from sequencer.plan import Plan
from sequencer.planning import plan_for
from sequencer.terms.minute import DAY, HOUR

EFFORT = 0.02
"""Enough for what is shown here."""

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
LATE, FIRST = "      odds:\n      stove:\n", "      odds:\n      stove: {before: odds}\n"
AIR = "\n  2 March: 8 C 70 %\n  after stove fit: heated to 25 C, 70 %"
EVERY_DAY = "people:\n  you: {days: Mon to Sun}\n"


def in_order(path: Path, uses: str, more: str = "") -> Plan:
    """A plan of mortar that sets for 150 h at 20 C, with a stove to be set up and small work to be done."""
    files = {"recipes/stove.yaml": STOVE, "recipes/odds.yaml": ODDS}
    said = {"wait": "after 150 h, cement law", "on": "[ceiling]"}
    return plan_for(folder(path, AIR, uses=uses, more=more, files=files, **said), TODAY, EFFORT)


def test_a_plan_that_warms_its_room_late_is_not_called_the_shortest(tmp_path: Path) -> None:
    """Some small work comes before the stove, but the stove before all of it would let the mortar set sooner."""
    late, first = in_order(tmp_path, LATE, EVERY_DAY), in_order(tmp_path, FIRST, EVERY_DAY)
    assert first.finish < late.finish
    assert not late.proven
    assert late.at_best <= first.finish


def test_a_plan_that_hands_over_when_warm_air_from_the_start_would_is_called_the_shortest(tmp_path: Path) -> None:
    """With weekends off both orders hand over on the Monday that no air could better."""
    late, first = in_order(tmp_path, LATE), in_order(tmp_path, FIRST)
    assert late.finish == first.finish
    assert late.proven
    assert first.proven


def test_where_the_air_changes_as_soon_as_it_can_the_shortest_plan_is_proven(tmp_path: Path) -> None:
    plan = planned(tmp_path, "\n  2 March: 6 C 60 %\n  after bed frame: heated to 20 C")
    assert plan.proven
    assert plan.finish - plan.start <= 2 * DAY + 12 * HOUR
