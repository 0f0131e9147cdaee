"""Planning with facts: what is told stands, what is not told counts as gone to plan where it can, the rest moves."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from demo_job import demo
from drawn_jobs import drawn_job
from facts_told import agreed, as_planned, fact, in_words, planned, planned_on, told
from hypothesis import given, settings
from hypothesis import strategies as st
from tiny_jobs import booking, job, keep_off, moment, order, room, spans, step, trade, wait

from sequencer.planning import plan_of, settled
from sequencer.solve import NoAnswer
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.told import Told
from sequencer.terms.with_facts import with_facts

SEEDS = (9, 13, 42, 311, 1016, 1017)
"""Random jobs with notice, orders, bookings, inspections, two rooms, shared visits among them."""


@pytest.mark.parametrize("seed", SEEDS)
def test_telling_the_plans_own_times_changes_nothing(seed: int, tmp_path: Path) -> None:
    """All of them told, or inspections and the newest alone, at three moments of the job."""
    bare = drawn_job(seed, tmp_path)
    plan = plan_of(bare, 0.3)
    ends = sorted(one.end for one in plan.steps)
    for now in (ends[0], ends[len(ends) // 2], ends[-2]):
        for every in (True, False):
            facts = agreed(bare, bare.now)
            again = plan_of(with_facts(bare, [*facts, *as_planned(bare, plan, now, len(facts) + 1, every)]), 0.3)
            assert again.pieces == plan.pieces
            assert again.finish == plan.finish


def chains(lengths: list[list[int]]) -> Job:
    """Rooms in which one trade each does a step after the other; nobody and nothing is shared."""
    steps, people, rooms = [], [trade("you", "8-18", weeks=4)], []
    for number, minutes in enumerate(lengths):
        who, where = f"trade{number}", f"room{number}"
        people.append(trade(who, "8-12, 13-17", weeks=4))
        rooms.append(room(where))
        for place, length in enumerate(minutes):
            after = f"{where}/u/s{place - 1} ready for next" if place else ""
            waits = [wait("next", 5.0 * (place % 3))]
            steps.append(step(f"{where}/u/s{place}", length, by=who, after=after, waits=waits))
    return job(*steps, trades=people, rooms=rooms, weeks=4)


@settings(max_examples=8, deadline=None)
@given(st.lists(st.lists(st.integers(2, 20).map(lambda n: 15 * n), min_size=2, max_size=3), min_size=2, max_size=3))
def test_one_hour_later_moves_exactly_the_steps_that_wait_for_it(lengths: list[list[int]]) -> None:
    """Checked against a plan in which the step takes so much longer from the start."""
    of = chains(lengths)
    before = planned(of)
    first = of.steps[0]
    end = before.pieces[first.id][-1][1]
    later = of.trades[first.trade].days
    there = [(a, b) for day in later for a, b in day.spans]
    left = HOUR
    for opens, closes in there:
        begin = max(opens, end)
        if begin < closes and left:
            take = min(left, closes - begin)
            left, end_later = left - take, begin + take
    longer = replace(first, minutes=first.minutes + HOUR)
    expected = planned(replace(of, steps=(longer, *of.steps[1:])))
    started = before.pieces[first.id][0][0]
    _, found = planned_on(of, fact(1, "began", first.id, started), fact(2, "done", first.id, end_later))
    now = end_later
    coming = [one.id for one in of.steps if before.pieces[one.id][0][0] >= now or expected.pieces[one.id][0][0] >= now]
    assert {id: found.pieces[id] for id in coming} == {id: expected.pieces[id] for id in coming}
    moved = {id for id in coming if found.pieces[id] != before.pieces[id]}
    assert moved <= {one.id for one in of.steps if one.room == first.room}


def test_what_is_told_to_be_done_ends_then_and_began_its_hours_before() -> None:
    of = job(step("a", 120), step("b", after="a"))
    _, found = planned_on(of, told("done a", at="Mon 14:30"))
    assert in_words(found) == {"a": "Mon 11:30 - Mon 14:30", "b": "Mon 14:30 - Mon 15:30"}
    _, found = planned_on(of, told("began a", at="Mon 9:10"), told("done a", at="Mon 14:30", number=2))
    assert in_words(found)["a"] == "Mon 9:10 - Mon 14:30"


def test_work_before_and_after_hours_is_work_where_it_was_done() -> None:
    of = job(step("a", 120))
    pieces = {
        said: planned_on(of, *facts)[1].pieces["bath/u/a"]
        for said, facts in {
            "late": [told("done a", at="Mon 18")],
            "Saturday": [told("done a", at="Sat 12")],
            "early": [told("began a", at="Mon 7"), told("done a", at="Mon 9", number=2)],
            "from Saturday": [told("began a", at="Sat 12"), told("done a", at="Mon2 9", number=2)],
        }.items()
    }
    assert pieces == {
        "late": spans("Mon 14-18"),
        "Saturday": spans("Sat 10-12"),
        "early": spans("Mon 7-9"),
        "from Saturday": (*spans("Sat 12-14"), *spans("Mon2 8-9")),
    }


def test_a_step_under_way_keeps_its_hours() -> None:
    of = job(step("a", 240), step("b", after="a"))
    _, found = planned_on(of, told("began a", at="Mon 10:05"))
    assert in_words(found) == {"a": "Mon 10:05 - Mon 15:05", "b": "Mon 15:15 - Tue 8:15"}


def test_nothing_begins_before_now() -> None:
    of = job(step("a"), step("b", by="tiler"), step("c", by="tiler", after="b"))
    _, found = planned_on(of, told("note early", at="Tue 10"), told("done b", at="Tue 10", number=2))
    assert in_words(found)["c"] == "Tue 10:00 - Tue 11:00"


def test_what_is_not_told_counts_as_gone_to_plan() -> None:
    of = job(step("a", 120), step("b", 120, after="a"), step("c", after="b"))
    changed, found = planned_on(of, told("note hello", at="Mon 11"))
    assert in_words(found) == in_words(planned(of))
    assert changed.past is not None
    assert {id: past.state for id, past in changed.past.items()} == {"bath/u/a": "not told", "bath/u/b": "not told"}


def test_what_followed_something_late_is_not_taken_to_have_happened() -> None:
    of = job(step("a", 120), step("b", 120, by="tiler", after="a"), step("c", by="you", after="b"))
    changed, found = planned_on(of, told("done a", at="Tue 15"))
    assert in_words(found)["b"] == "Tue 15:00 - Wed 9:00"
    assert list(changed.past or {}) == ["bath/u/a"]


def test_an_inspection_is_never_taken_to_have_passed() -> None:
    look = trade("inspector", "9-15", hour_known=False)
    of = job(step("a"), step("look", by="inspector", kind="hold", after="a"), step("b", after="look"), trades=[look])
    during = in_words(planned_on(of, told("note here", at="Mon 12"))[1])
    untold, later = planned_on(of, told("note here", at="Tue 8"))
    after = in_words(later)
    said = "not told as passed, so what waits for it is still to be done: bath/u/look"
    assert untold.assumed == (said,)
    passed = in_words(planned_on(of, told("passed look", at="Mon 11"))[1])
    assert during == in_words(planned(of))
    assert after["look"] == "Tue 9:00 - Tue 15:00"
    assert (passed["look"], passed["b"]) == ("Mon 9:00 - Mon 11:00", "Mon 11:00 - Mon 12:00")


def test_a_delivery_is_never_taken_to_have_come() -> None:
    of = job(step("a"), step("b", by="tiler"), orders=[replace(order("b", arrives="Mon 9"), ordered=moment("Mon 0"))])
    untold = planned_on(of, told("done a", at="Tue 10"))
    assert in_words(untold[1])["b"] == "Tue 10:00 - Tue 11:00"
    assert untold[0].assumed == ("tiles: should be on site, not told as delivered; counted on from now",)
    _, come = planned_on(of, told("delivered tiles", at="Mon 9"), told("done a", at="Tue 10", number=2))
    assert in_words(come)["b"] == "Mon 9:00 - Mon 10:00"


def test_an_order_changes_with_what_is_told_of_it() -> None:
    of = job(step("a"), orders=[order("a", arrives="Wed 0", lead=2)])

    def starts(*facts: Fact) -> str:
        return in_words(planned_on(of, *facts)[1])["a"].partition(" -")[0]

    assert starts(told("delivered tiles", at="Mon 10")) == "Mon 10:00"
    assert starts(told("ordered tiles", at="Mon 10")) == "Thu 8:00"
    assert starts(replace(told("ordered tiles", at="Mon 10"), at=moment("Sat 0"))) == "Mon2 8:00"
    assert starts(replace(told("delivered tiles, short", at="Mon 10"), short=True)) == "Thu 8:00"
    assert starts(told("note nothing is ordered", at="Tue 10")) == "Fri 8:00"


def test_a_failed_inspection_repeats_its_steps_under_new_names() -> None:
    """Water is let out as it would have been, then what failed is done again in its order, and inspected again."""
    of = job(
        step("coat", on="floor", waits=[wait("fill", 2)], gives="tight"),
        step("fill", on="floor", after="coat ready for fill", makes=("water",), closing=keep_off("drain is done")),
        step("read", after="fill", kind="hold", if_failed=("bath/u/drain", "bath/u/coat", "bath/u/fill")),
        step("drain", on="floor", after="read"),
        step("tile", needs="tight", on="floor", after="drain"),
    )
    changed, found = planned_on(of, told("failed read", at="Mon 15"))
    said = in_words(found)
    assert [id for id in said if "again" in id] == [
        "bath/u again/drain", "bath/u again/coat", "bath/u again/fill", "bath/u again/read"
    ]  # fmt: skip
    order_of_work = sorted(said, key=lambda id: found.pieces[f"bath/u/{id}" if "/" not in id else id][0][0])
    assert order_of_work == [
        "coat", "fill", "read", "drain", "bath/u again/coat", "bath/u again/fill", "bath/u again/read",
        "bath/u again/drain", "tile",
    ]  # fmt: skip
    assert changed.past is not None and changed.past["bath/u/read"].state == "failed"
    twice = with_facts(changed, [told("failed bath/u again/read", at="Wed 15", number=2)])
    assert twice.step("bath/u again 2/read").title == "read, again, again"


def test_found_work_waits_for_the_clients_yes_and_what_follows_waits_for_it() -> None:
    of = job(step("strip", on="floor"), step("lay", on="floor", after="strip"), step("paint", by="painter"))
    found_rot = told("found strip, rot, 2 h", at="Mon 9", minutes=120)
    _, found = planned_on(of, told("done strip", at="Mon 9"), replace(found_rot, number=7))
    said = in_words(found)
    assert said["bath/found-7/yes"] == "Tue 8:00 - Tue 16:00"
    assert said["bath/found-7/rot"] == "Wed 8:00 - Wed 10:00"
    assert said["lay"] == "Wed 10:00 - Wed 11:00"
    yes = fact(8, "passed", "bath/found-7/yes", moment("Mon 11"))
    _, found = planned_on(of, told("done strip", at="Mon 9"), replace(found_rot, number=7), yes)
    assert in_words(found)["bath/found-7/rot"] == "Mon 11:00 - Mon 14:00"


def test_who_is_late_or_away_does_not_come_and_a_firm_visit_then_is_gone() -> None:
    of = job(step("a"), step("b", by="plumber", after="a"), bookings=(booking("b", "Tue 8", by="plumber"),))
    assert in_words(planned(of))["b"] == "Tue 8:00 - Tue 9:00"
    late = told("late plumber", at="Mon 8", span=(moment("Mon 0"), moment("Thu 0")))
    changed, found = planned_on(of, late)
    assert in_words(found)["b"] == "Thu 8:00 - Thu 9:00"
    assert changed.bookings == ()
    sooner = replace(late, number=2, span=(moment("Mon 0"), moment("Wed 0")))
    assert in_words(planned_on(of, late, sooner)[1])["b"] == "Wed 8:00 - Wed 9:00"
    away = told("away plumber", at="Mon 8", number=3, span=(moment("Wed 0"), moment("Thu 0")))
    assert in_words(planned_on(of, sooner, away)[1])["b"] == "Thu 8:00 - Thu 9:00"


def test_a_booked_visit_is_fixed_and_a_released_one_is_free() -> None:
    of = job(step("a"), step("b", by="plumber"))
    book = replace(told("booked b", at="Mon 7"), at=moment("Wed 10"))
    assert in_words(planned_on(of, book)[1])["b"] == "Wed 10:00 - Wed 11:00"
    free = told("released b", at="Mon 9", number=2)
    assert in_words(planned_on(of, book, free)[1])["b"] == "Mon 9:00 - Mon 10:00"


def test_a_firm_visit_whose_hour_is_gone_and_its_step_not_begun_is_to_be_booked_anew() -> None:
    of = job(step("a"), step("b", by="plumber", after="a"), bookings=(booking("b", "Tue 8", by="plumber"),))
    changed, found = planned_on(of, told("done a", at="Tue 14"))
    assert in_words(found)["b"] == "Tue 14:00 - Tue 15:00"
    assert changed.bookings == ()
    said = "plumber was booked for bath/u/b, and nobody told that it began: to be booked anew"
    assert changed.assumed == (said,)


def test_notice_counts_from_now_and_for_who_is_asked_from_the_asking() -> None:
    plumber = trade("plumber", notice_days=2, notice_words="2 working days", earliest=moment("Wed 0"))
    of = job(step("a"), step("b", by="plumber", after="a"), trades=[plumber])
    assert in_words(planned(of))["b"] == "Wed 8:00 - Wed 9:00"
    done = told("done a", at="Tue 9")
    assert in_words(planned_on(of, done)[1])["b"] == "Thu 8:00 - Thu 9:00"
    asked = told("asked b", at="Mon 9", number=2)
    assert in_words(planned_on(of, done, asked)[1])["b"] == "Wed 8:00 - Wed 9:00"
    for_friday = replace(asked, at=moment("Fri 10"))
    assert in_words(planned_on(of, done, for_friday)[1])["b"] == "Fri 10:00 - Fri 11:00"


def test_an_office_is_asked_in_time_by_the_hour_of_the_asking() -> None:
    days = trade("inspector", "9-15").days
    ask_by = tuple(day.spans[0][0] - 18 * HOUR for day in days)
    look = trade("inspector", "9-15", hour_known=False, ask_by=ask_by)
    of = job(step("a"), step("look", by="inspector", kind="hold", after="a"), trades=[look])
    late = told("done a", at="Mon 16")
    assert in_words(planned_on(of, late)[1])["look"] == "Wed 9:00 - Wed 15:00"
    asked = told("asked look", at="Mon 14", number=2)
    assert in_words(planned_on(of, late, asked)[1])["look"] == "Tue 9:00 - Tue 15:00"


def test_a_layer_goes_on_in_the_air_that_was_read() -> None:
    cure = wait("next", 24, law="cement", at_temperature=20.0)
    of = job(step("lay", waits=[cure]), step("tile", after="lay ready for next"))
    cold = told("measured bath", at="Mon 10", number=2, temperature=5.0, humidity=0.8)
    warm = replace(cold, temperature=25.0)
    laid = told("done lay", at="Mon 9")
    starts = [planned_on(of, laid, *more)[1].pieces["bath/u/tile"][0][0] for more in ([], [cold], [warm])]
    assert starts[2] < starts[0] < starts[1]


def test_a_reading_of_the_layer_itself_ends_its_wait() -> None:
    of = job(step("lay", waits=[wait("next", 48)]), step("tile", after="lay ready for next"))
    laid = told("done lay", at="Mon 9")
    ready = told("ready lay, for next", at="Mon 14", number=2, purpose="next")
    assert in_words(planned_on(of, laid, ready)[1])["tile"] == "Mon 14:00 - Mon 15:00"
    damp = told("measured lay, not ready for next", at="Thu 9", number=2, purpose="next", ready=False)
    assert in_words(planned_on(of, laid, damp)[1])["tile"] == "Thu 9:00 - Thu 10:00"


def test_a_window_that_nobody_can_meet_any_more_does_not_stop_the_plan_and_one_that_can_be_met_binds() -> None:
    coat = step("coat", waits=[wait("next", 1, within_minutes=4 * HOUR)])
    of = job(coat, step("again", 120, one_go=True, after="coat ready for next"), step("other", 480, by="you"))
    _, met = planned_on(of, told("done coat", at="Mon 9"), told("note now", at="Mon 11", number=2))
    assert in_words(met)["again"] <= "Mon 13:00"
    _, missed = planned_on(of, told("done coat", at="Mon 11"), told("note now", at="Mon 15:30", number=2))
    assert in_words(missed)["again"].startswith("Tue")


def test_a_surface_closed_by_what_lies_behind_stays_closed() -> None:
    lay = step("lay", on="floor", waits=[wait("foot", 24)], closing=keep_off("foot"))
    of = job(lay, step("paint", on="ceiling", by="painter"), trades=[trade("painter", days="Tue Wed Thu Fri")])
    _, found = planned_on(of, told("done lay", at="Mon 10"))
    assert found.pieces["bath/u/paint"][0][0] >= moment("Tue 10")


def test_a_closing_until_a_step_is_done_lasts_though_it_began_in_the_past() -> None:
    fill = step("fill", on="floor", closing=keep_off("drain is done"))
    of = job(fill, step("drain", on="floor", after="fill"), step("paint", on="ceiling", by="painter"))
    _, found = planned_on(of, told("done fill", at="Mon 9"))
    assert found.pieces["bath/u/paint"][0][0] >= found.pieces["bath/u/drain"][-1][1]


def test_what_has_happened_breaks_no_rule_and_hands_that_are_taken_are_counted() -> None:
    two = trade("tiler", hands=2)
    of = job(*(step(f"room{n}/u/a", 240, by="tiler") for n in range(4)), trades=[two], weeks=3)
    began = [fact(n + 1, "began", f"room{n}/u/a", moment("Mon 8")) for n in range(3)]
    _, found = planned_on(of, *began)
    assert found.pieces["room3/u/a"][0][0] == moment("Mon 13")
    _, found = planned_on(of, began[0])
    started = sorted(pieces[0][0] for pieces in found.pieces.values())
    assert started == [moment("Mon 8"), moment("Mon 8"), moment("Mon 13"), moment("Mon 13")]


def test_whoever_is_told_to_be_at_work_is_free_at_the_end_of_his_own_work_and_not_sooner() -> None:
    lengths = (60, 240, 120, 120, 120)
    of = job(
        *(step(f"room{n}/u/a", length, by="tiler") for n, length in enumerate(lengths)),
        trades=[trade("tiler", hands=2)],
    )
    began = [fact(n + 1, "began", f"room{n}/u/a", moment("Mon 8")) for n in range(2)]
    _, found = planned_on(of, *began)
    starts = sorted(found.pieces[f"room{n}/u/a"][0][0] for n in range(2, 5))
    assert starts == [moment("Mon 9"), moment("Mon 11"), moment("Mon 13")]


def test_more_told_at_work_than_there_are_hands_gives_nobody_more_hands_later() -> None:
    of = job(*(step(f"room{n}/u/a", 240, by="tiler") for n in range(6)), trades=[trade("tiler", hands=2)], weeks=3)
    _, found = planned_on(of, *(fact(n + 1, "began", f"room{n}/u/a", moment("Mon 8")) for n in range(3)))
    starts = sorted(found.pieces[f"room{n}/u/a"][0][0] for n in range(3, 6))
    assert starts == [moment("Mon 13"), moment("Mon 13"), moment("Tue 9")]


def test_what_a_closing_lets_in_keeps_out_of_the_room_though_the_step_between_was_done_too_soon() -> None:
    fill = step("fill", 240, on="floor", closing=keep_off("drain is done"))
    of = job(fill, step("read", after="fill"), step("drain", 240, on="floor", after="read"))
    _, found = planned_on(of, told("done read", at="Mon 8:30"))
    (fill_from, fill_to), (drain_from, drain_to) = found.pieces["bath/u/fill"][0], found.pieces["bath/u/drain"][0]
    assert fill_to <= drain_from or drain_to <= fill_from


ODD = (
    (("began", "strip-out/fixtures out", 9.25),),
    (("done", "wetroom-membrane/drain", 9.5), ("began", "strip-out/fixtures out", 10.0)),
    (("done", "strip-out/strip", 8.5), ("began", "strip-out/fixtures out", 9.0), ("began", "protection/cover", 9.0)),
)
"""Facts in an order nobody works in: kind, step, hours after the midnight the demo starts with."""


@pytest.mark.parametrize("odd", ODD)
def test_facts_in_an_order_nobody_works_in_are_planned_around(odd: tuple[tuple[str, str, float], ...]) -> None:
    of = demo()
    facts = [
        fact(n, kind, f"bathroom/{id}", of.start // DAY * DAY + round((8 + hours) * HOUR))
        for n, (kind, id, hours) in enumerate(odd, 1)
    ]
    again = plan_of(settled(with_facts(of, facts), made=plan_of(of, 0.0).pieces), 0.0)
    for one in facts:
        pieces = again.pieces[one.about]
        assert one.happened == (pieces[0][0] if one.kind == "began" else pieces[-1][1])


def test_the_plan_people_were_told_is_what_counts_as_gone_to_plan() -> None:
    of = job(step("a"), step("b", by="tiler"))
    pieces = {"bath/u/a": ((moment("Mon 10"), moment("Mon 11")),), "bath/u/b": ((moment("Tue 8"), moment("Tue 9")),)}
    of = replace(of, told=Told(1, moment("Tue 9"), pieces))
    _, found = planned_on(of, told("note now", at="Mon 12"))
    assert in_words(found)["a"] == "Mon 10:00 - Mon 11:00"


def test_facts_that_are_only_thought_of_lie_on_top_and_leave_the_job_as_it_is() -> None:
    of = with_facts(job(step("a"), step("b", after="a")), [told("done a", at="Mon 9")])
    if_so = with_facts(of, [told("done b", at="Mon 12", number=2)])
    assert [one.number for one in of.facts] == [1]
    assert [one.number for one in if_so.facts] == [1, 2]
    assert with_facts(if_so, []).facts == if_so.facts
    assert with_facts(job(step("a")), []) == job(step("a"))


def test_a_job_that_is_done_hands_over() -> None:
    of = job(step("a"), step("b", after="a"))
    _, found = planned_on(of, told("done a", at="Mon 9"), told("done b", at="Mon 11", number=2))
    assert found.hand_over == moment("Mon 11")


def test_where_nothing_fits_any_more_it_is_said() -> None:
    of = job(step("a"), step("b", by="plumber", after="a"))
    with pytest.raises(NoAnswer):
        planned_on(of, told("late plumber", at="Mon 8", span=(moment("Mon 0"), moment("Fri2 23"))))


def test_where_the_calendar_ends_before_the_work_nothing_fits() -> None:
    with pytest.raises(NoAnswer) as raised:
        planned_on(job(step("a"), step("b", after="a")), told("done a", at="Fri2 15:50"))
    assert raised.value.certain
