"""Someone is late, something was found: what moves, what stays, whom to call in which order, what fills the gap.

Outside checks: a homeowner's diary of 2016 (the tiler comes three working days late; the glass is measured on finished
tile, and comes three working days late), and a newspaper column of 2014 (a holiday on a Tuesday, the Monday bridged).
"""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from drawn_jobs import drawn_job
from golden_text import same_as_golden
from planned_jobs import planned, whole
from tiny_jobs import HERE, booking, ident, job, moment, order, step, trade, wait, workdays

from sequencer.answers.what_now.answer import WhatNow, what_now
from sequencer.answers.what_now.moves import Before, known
from sequencer.planning import NoOrderFits, plan_of
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, Minute
from sequencer.terms.place import Faulty
from sequencer.terms.with_facts import with_facts
from sequencer.terms.words import OWN_TRADE
from sequencer.views.what_now.as_json import what_now_as_json
from sequencer.views.what_now.messages import message
from sequencer.views.what_now.text import what_now_text


def fact(kind: str, about: str, at: str = "Mon 0", **more: object) -> Fact:
    return Fact(1, kind, about, moment(at), moment(at), str(more.pop("words", "")), HERE, **more)  # type: ignore[arg-type]


def late(who: str, until: str, since: str = "Mon 0") -> Fact:
    """Not there before a day."""
    return fact("late", who, since, span=(moment(since), moment(f"{until} 0")))


def now(of: Job, *facts: Fact, told: bool = False) -> WhatNow:
    made = whole(of)
    before = known(made, 0.2)
    if told:
        made, before = replace(made, told=before.plan), Before(before.plan, True)
    return what_now(made, with_facts(made, facts), facts, before, 0.2)


def moved(found: WhatNow) -> dict[str, tuple[Minute | None, Minute | None]]:
    return {one.id: (one.was, one.starts) for one in found.moves.moved}


TILING = (
    step("tile", 8 * 60, by="tiler"),
    step("measure", 60, by="glazier", after="tile"),
    step("fit", 120, by="glazier"),
)
GLASS = order("fit", made_after="measure", lead=5)
"""Glass is measured on the finished tile and made to measure: five working days."""


def test_a_tiler_three_working_days_late_makes_the_measured_glass_three_working_days_late() -> None:
    found = now(job(*TILING, orders=(GLASS,), weeks=5), late("tiler", "Thu"))
    assert moved(found)[ident("tile")] == (moment("Mon 8"), moment("Thu 8"))
    assert moved(found)[ident("measure")] == (moment("Tue 9"), moment("Fri 9"))
    assert moved(found)[ident("fit")] == (moment("Wed2 8"), moment("Mon3 8"))
    assert found.before.finish == moment("Wed2 10") and found.plan.finish == moment("Mon3 10")


def test_hand_over_moves_with_the_glass_only_if_the_glass_is_on_the_longest_chain() -> None:
    """A carpenter has four weeks of work elsewhere: the glass comes as late, hand-over stays."""
    long = step("hall/u/long", 20 * 7 * 60, by="carpenter")
    found = now(job(*TILING, long, orders=(GLASS,), weeks=6), late("tiler", "Thu"))
    assert moved(found)[ident("fit")] == (moment("Wed2 8"), moment("Mon3 8"))
    assert found.plan.finish == found.before.finish


def test_a_lost_day_before_a_finish_without_room_moves_it_to_the_next_day_the_house_can_be_entered() -> None:
    """The painter is done on Friday; nobody gets in at the weekend, nor on Monday: it is Tuesday."""
    days = workdays(days="Mon Tue Wed Thu Fri")
    entered = tuple(one for one in days if one.spans[0][0] // DAY != moment("Mon2 0") // DAY)
    people = [replace(trade(name), days=entered) for name in ("you", "painter")]
    of = job(step("fill", 7 * 60), step("paint", 28 * 60, by="painter", after="fill"), trades=people)
    assert planned(of)[1].finish == moment("Fri 16")
    found = now(of, late("painter", "Wed", "Mon 0"))
    assert moved(found)[ident("paint")] == (moment("Tue 8"), moment("Wed 8"))
    assert found.plan.finish == moment("Tue2 16")


def test_a_tuesday_holiday_with_the_monday_bridged_costs_two_days() -> None:
    """A layer laid on Friday; the next day of work is Monday, with the holiday and the day before it Wednesday."""
    steps = (step("lay", 7 * 60, waits=[wait("go on", 12)]), step("go on", 7 * 60, after="lay ready for go on"))

    def finish(*shut: str) -> Minute:
        closed = [moment(f"{day} 0") for day in shut]
        open_then = [one for one in workdays(weeks=2) if one.spans[0][0] >= moment("Fri 0")]
        days = tuple(one for one in open_then if not any(at <= one.spans[0][0] < at + DAY for at in closed))
        return planned(job(*steps, trades=[replace(trade("you"), days=days)]))[1].finish

    assert finish() == moment("Mon2 16")
    assert finish("Mon2", "Tue2") == moment("Wed2 16")
    assert moment("Wed2 16") - moment("Mon2 16") == 2 * DAY


def test_what_people_were_told_moves_only_if_it_must_and_is_named() -> None:
    """The electrician could come sooner in the gap, but was told Thursday, and nothing asks him to change."""
    of = job(
        step("pipes", 4 * 60, by="plumber"),
        step("board", 4 * 60, after="pipes"),
        step("hall/u/lights", 2 * 60, by="electrician", gives="lit"),
        bookings=(booking("hall/u/lights", "Thu 8", "electrician"),),
    )
    found = now(of, late("plumber", "Wed"), told=True)
    assert set(moved(found)) == {ident("pipes"), ident("board")}
    assert found.moves.stay == 1
    assert [(one.trade, one.moves) for one in found.visits] == [("plumber", True), ("electrician", False)]


CREW = (
    step("pipes", 4 * 60, by="plumber"),
    step("board", 2 * 60, after="pipes"),
    step("tile", 7 * 60, by="tiler", after="board"),
    step("lights", 2 * 60, by="electrician", after="tile"),
)


def test_who_is_called_first_is_who_it_hangs_on_then_who_would_come_in_vain_first_then_the_client() -> None:
    found = now(job(*CREW), late("plumber", "Thu"), told=True)
    assert [(one.who, one.about) for one in found.calls] == [
        ("plumber", "confirm"), ("tiler", "move"), ("electrician", "move"), ("client", "tell"),
    ]  # fmt: skip
    assert [one.by for one in found.calls] == sorted(one.by for one in found.calls[:-1]) + [found.calls[-1].by]


def test_nobody_is_called_about_a_visit_that_was_only_pencilled() -> None:
    found = now(job(*CREW), late("plumber", "Thu"))
    assert [one.who for one in found.calls] == ["plumber"]
    assert {one.trade for one in found.untold} == {"tiler", "electrician"}


def test_found_work_waits_for_the_clients_yes_and_the_client_is_asked_first() -> None:
    found = now(job(*CREW), fact("found", ident("pipes"), words="rot, 6 h", minutes=360), told=True)
    assert (found.calls[0].who, found.calls[0].about) == ("client", "yes")
    new = [one.id for one in found.moves.moved if one.was is None]
    assert new == ["bath/found-1/yes", "bath/found-1/rot"]


def test_the_gap_is_filled_by_what_can_come_sooner() -> None:
    """Two days of boards in the hall waited for the grout, which others wait for; the tiler late, they come first."""
    of = job(
        step("tile", 7 * 60, by="tiler"),
        step("grout", 7 * 60, after="tile"),
        step("yard/u/long", 35 * 60, by="carpenter", after="grout"),
        step("hall/u/boards", 14 * 60),
        weeks=4,
    )
    found = now(of, late("tiler", "Thu"), told=True)
    assert moved(found)["hall/u/boards"] == (moment("Wed 8"), moment("Mon 8"))
    assert found.pulled == ("hall/u/boards",)


def test_an_order_needed_later_is_named() -> None:
    tiles = replace(order("tile", "Mon 0"), ordered=moment("Mon 0") - DAY, delivered=moment("Mon 0"))
    of = job(step("strip", 60, by="plumber"), step("tile", 60, after="strip"), orders=(tiles,))
    found = now(of, late("plumber", "Thu"))
    assert [(one.order.id, one.was, one.order.needed) for one in found.orders] == [
        ("tiles", moment("Mon 9"), moment("Thu 9"))
    ]


SEEDS = range(16)


@pytest.mark.parametrize("seed", SEEDS)
def test_with_the_booking_freed_a_later_sub_never_makes_an_earlier_hand_over(seed: int, tmp_path: Path) -> None:
    """Whoever has fewer days left can never let the whole be done sooner; a booking given up could."""
    of, who, until = _with_a_sub(seed, tmp_path)
    free = of.with_bookings(())
    later = replace(late(who, "Mon"), about=who, happened=of.start, span=(of.start, until))
    try:
        sooner = plan_of(replace(free, told=None)).goals[0]
    except NoOrderFits:
        with pytest.raises(NoOrderFits):
            plan_of(with_facts(free, (later,)))
        return
    try:
        assert plan_of(with_facts(free, (later,))).goals[0].value >= sooner.bound
    except NoOrderFits:
        assert until > of.start


def _with_a_sub(seed: int, folder: Path) -> tuple[Job, str, Minute]:
    """A random job, somebody who works in it, and the third of its days."""
    try:
        of = drawn_job(seed, folder)
    except Faulty:
        return _with_a_sub(seed + len(SEEDS), folder)
    subs = sorted({one.trade for one in of.steps} - {OWN_TRADE})
    return (of, subs[0], of.half_days[4]) if subs else _with_a_sub(seed + len(SEEDS), folder)


def test_what_moves_whom_to_call_and_with_which_words() -> None:
    tiles = replace(order("tile", "Mon 0"), item="wall tile", ordered=moment("Mon 0") - DAY, delivered=moment("Mon 0"))
    promised = replace(job(*CREW, orders=(tiles,)), title="Bathroom, Mill Row", promise=moment("Fri 0"))
    found = now(promised, late("plumber", "Thu"), told=True)
    text = what_now_text(found)
    assert max(map(len, text.splitlines())) <= 80
    same_as_golden("what-now-late.txt", text)


def test_what_was_found_asks_the_client_and_says_the_date_with_their_yes() -> None:
    found = now(job(*CREW), fact("found", ident("pipes"), words="rot, 6 h", minutes=360), told=True)
    same_as_golden("what-now-found.txt", what_now_text(found))


def test_what_changes_nothing_says_so() -> None:
    text = what_now_text(now(job(*CREW, trades=[trade("painter")]), late("painter", "Tue"), told=True))
    assert "stays Wed 4 March 09:00" in text
    assert "WHOM TO CALL" not in text


def test_the_same_as_json_with_the_words_to_send() -> None:
    found = now(job(*CREW), late("plumber", "Thu"), told=True)
    told = json.loads(what_now_as_json(found))
    assert (told["kind"], told["told"], told["was"]) == ("what now", True, "2026-03-04T09:00:00+00:00")
    assert [call["who"] for call in told["calls"]] == ["plumber", "tiler", "electrician", "client"]
    assert told["calls"][1]["words"] == message(found, found.calls[1])
    assert told["visits"][0] == {
        "trade": "plumber", "steps": [ident("pipes")], "was": "2026-03-02T08:00:00+00:00",
        "from": "2026-03-05T08:00:00+00:00", "state": "pencilled", "call_by": None,
    }  # fmt: skip
