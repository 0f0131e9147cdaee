"""Facts in an order nobody works in: what comes out of step is planned around, and breaks nothing."""

from __future__ import annotations

import pytest
from facts_told import planned_on, told
from tiny_jobs import job, keep_off, step, wait

from sequencer.audit.site import overlap


def test_a_test_still_to_be_filled_though_it_was_read_keeps_the_room_to_itself() -> None:
    """Read too soon, it may be filled behind its own draining: then nothing closes, and the room still takes one."""
    of = job(
        step("coat", by="painter", waits=[wait("fill", 20)]),
        step("fill", 240, on="shower floor", after="coat ready for fill", closing=keep_off("drain is done")),
        step("read", after="fill"),
        step("drain", 60, on="shower floor", after="read"),
        step("tile", 420, by="tiler", on="wet walls", after="drain"), step("grout", 420, by="tiler", after="tile"),
    )  # fmt: skip
    _, found = planned_on(of, told("done read", at="Mon 8:30"))
    fill, tile, drain = (found.pieces[f"bath/u/{name}"] for name in ("fill", "tile", "drain"))
    assert not overlap((fill[0][0], fill[-1][1]), (tile[0][0], tile[-1][1]))
    assert drain[-1][1] <= fill[0][0]


@pytest.mark.parametrize("closed", [False, True])
def test_a_failed_inspection_takes_nothing_back_that_nobody_would_give_again(closed: bool) -> None:
    """What closes the cut once more follows the repetition, or was done already and is not repeated."""
    of = job(
        step("give", gives="done"), step("use", 420, needs="done", by="tiler"),
        step("cut/look", kind="hold", after="give", takes_back="done"),
        step("cut/close", after="cut/look", gives="done"),
    )  # fmt: skip
    facts = [told("done give", at="Mon 9"), told("failed cut/look", at="Mon 10", number=2)]
    facts += [told("done cut/close", at="Mon 11", number=3)] if closed else []
    _, found = planned_on(of, *facts)
    again, close = found.pieces["bath/cut again/look"], found.pieces["bath/cut/close"]
    assert (again[-1][1] <= close[0][0]) is not closed
    assert found.pieces["bath/u/use"][0][0] >= close[-1][1]
