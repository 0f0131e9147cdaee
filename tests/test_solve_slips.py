"""Room for a slip: how much later a step may start, the work in front of it as it is, before hand-over moves."""

from __future__ import annotations

from tiny_jobs import job, network_of, solved, step, wait

from sequencer.terms.minute import HOUR

LONG = step("hall/u/long", 40 * 60, by="carpenter")
"""Five days of eight hours; work of others beside it has room."""


def slips(*steps: object, **more: object) -> dict[str, float]:
    """Hours every step may slip."""
    found = solved(network_of(job(*steps, **more))).slips  # type: ignore[arg-type]
    return {id: minutes / HOUR for id, minutes in found.items()}


def test_what_hand_over_waits_for_has_no_room() -> None:
    found = slips(LONG, step("a"))
    assert found["hall/u/long"] == 0
    assert found["bath/u/a"] > 4 * 24


def test_a_step_that_must_follow_in_time_slips_no_further_than_its_latest() -> None:
    """Work from 8 to 9, ready at 10, to be followed by 13:00: three hours; what is in front slips with it."""
    layer = step("a", waits=[wait("b", 1, within_minutes=4 * HOUR)])
    found = slips(LONG, layer, step("b", after="a ready for b"), step("c", after="b"))
    assert found["bath/u/b"] == 3
    assert found["bath/u/a"] > 4 * 24
    assert found["bath/u/c"] > 4 * 24
