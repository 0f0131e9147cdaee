"""Whom a closed floor shuts out, and whom it does not."""

from __future__ import annotations

import pytest
from tiny_jobs import job, keep_off, network_of, room, solved, spans, step, wait

from sequencer.audit import Times, audit
from sequencer.planning import airs
from sequencer.terms.job import Job, Step
from sequencer.writeup import times_of

WET = step("wet", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot"))
PAN = step("wet", on="shower floor", waits=[wait("foot", 3)], closing=keep_off("foot"))
BESIDE = {
    "on a plank": job(WET, step("b", after="wet", on="ceiling", stands="plank")),
    "at the door": job(WET, step("b", after="wet", on="dry walls", stands="door")),
    "beside the shower": job(PAN, step("b", after="wet", on="dry walls")),
    "beside the shower, closing the floor in turn": job(
        PAN, step("b", after="wet", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot"))
    ),
    "outside the room": job(WET, step("b", after="wet", on="dry walls", stands="elsewhere")),
}


def plan(of: Job) -> Times:
    """The solver's times."""
    network = network_of(of)
    return times_of(network, solved(network))


@pytest.mark.parametrize("tiny", BESIDE.values(), ids=BESIDE)
def test_who_does_not_stand_on_a_closed_floor_works_beside_it(tiny: Job) -> None:
    found = plan(tiny)
    assert found.pieces == {"bath/u/wet": spans("Mon 8-9"), "bath/u/b": spans("Mon 9-10")}
    assert audit(tiny, airs(tiny), found) == ()


def test_a_floor_behind_a_room_does_not_shut_that_room() -> None:
    hall = step("hall/u/b", on="floor", waits=[wait("foot", 1)], closing=keep_off("foot"), by="tiler")
    tiny = job(WET, hall, rooms=[room("bath", reached_through="hall")])
    found = plan(tiny)
    assert found.pieces["bath/u/wet"] == spans("Mon 8-9")
    assert found.pieces["hall/u/b"] == spans("Mon 9-10")


SHOP = {
    "keeps no floor closed": step("wet", on="floor", waits=[wait("foot", 3)], closing=keep_off("foot"), where="shop"),
    "makes no dust in the room": step("wet", makes=("machine dust",), where="shop"),
    "has no layer in the room": step("wet", waits=[wait("dust", 9)], where="shop"),
}


@pytest.mark.parametrize("away", SHOP.values(), ids=SHOP)
def test_what_is_done_in_the_shop(away: Step) -> None:
    beside = step("b", after="wet", on="floor", waits=[wait("dust", 1)], makes=("hand dust",))
    tiny = job(away, beside)
    found = plan(tiny)
    assert found.pieces == {"bath/u/wet": spans("Mon 8-9"), "bath/u/b": spans("Mon 9-10")}
    assert audit(tiny, airs(tiny), found) == ()
