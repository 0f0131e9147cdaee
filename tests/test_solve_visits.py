"""Firm visits that do not fit are given up, as few as can be, and what is left is a sound plan; odd hours are met."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from tiny_jobs import booking, broken, job, moment, network_of, solved, spans, step, trade, wait

from sequencer.network.model import Minutes, Order, Why, Window
from sequencer.solve import Answer
from sequencer.solve.widths import widths
from sequencer.terms.job import Job, Workday
from sequencer.terms.minute import HOUR, Minute
from sequencer.writeup import times_of


def sound(of: Job, answer: Answer) -> bool:
    """True if the audit finds nothing, the visits that were given up left aside."""
    kept = tuple(each for each in of.bookings if each.step not in answer.released)
    return broken(of.with_bookings(kept), times_of(network_of(of), answer)) == ()


def test_only_the_visit_that_comes_too_soon_is_given_up() -> None:
    visits = (booking("b", "Mon 9:00", "plumber"), booking("c", "Wed 9:05", "plumber"))
    of = job(step("a", 480), step("b", by="plumber", after="a"), step("c", by="plumber"), bookings=visits)
    answer = solved(network_of(of))
    assert answer.released == ("bath/u/b",)
    assert answer.starts["bath/u/c"] == moment("Wed 9:05")
    assert sound(of, answer)


def test_of_two_visits_that_do_not_go_together_the_later_one_is_given_up() -> None:
    """The second has to follow the first by three days, and comes on the day after it."""
    for first, second in (("b", "c"), ("c", "b")):
        visits = (booking(second, "Wed 9", "plumber"), booking(first, "Tue 9", "plumber"))
        stands = step(first, by="plumber", waits=[wait(second, 72)])
        of = job(stands, step(second, by="plumber", after=f"{first} ready for {second}"), bookings=visits)
        answer = solved(network_of(of))
        assert answer.released == (f"bath/u/{second}",)
        assert answer.starts[f"bath/u/{first}"] == moment("Tue 9")
        assert sound(of, answer)


def test_a_visit_that_is_given_up_needs_notice_like_any_other() -> None:
    plumber = trade("plumber", earliest=moment("Mon2 8"), notice_days=5)
    visits = (booking("b", "Mon 9", "plumber"),)
    of = job(step("a", 480), step("b", by="plumber", after="a"), trades=(plumber,), bookings=visits)
    answer = solved(network_of(of))
    assert answer.released == ("bath/u/b",)
    assert answer.starts["bath/u/b"] == moment("Mon2 8")
    assert sound(of, answer)


def plumber_from(hours_of_yours: int, firm: str = "") -> tuple[Minute, Answer]:
    """When a plumber who does not come for less than an hour starts on four hours behind yours, and the whole answer;
    `firm`: the moment he is booked for an hour in the hall."""
    visits = (booking("hall/u/c", firm, "plumber"),) if firm else ()
    of = job(
        step("a", hours_of_yours), step("b", 240, by="plumber", after="a"),
        step("hall/u/c", by="plumber", after="b"), step("d", by="plumber", after="hall/u/c"),
        trades=(trade("plumber", shortest_visit=HOUR),), bookings=visits,
    )  # fmt: skip
    answer = solved(network_of(of))
    assert sound(of, answer)
    return answer.starts["bath/u/b"], answer


def test_a_last_half_hour_may_fall_on_the_day_of_a_firm_visit_and_on_no_other() -> None:
    assert plumber_from(210)[0] == moment("Mon 13")
    assert plumber_from(210, firm="Tue 9")[0] == moment("Mon 11:30")
    assert plumber_from(210, firm="Wed 9")[0] == moment("Mon 13")


def test_where_the_firm_visit_is_given_up_the_shortest_visit_counts_on_its_day_again() -> None:
    start, answer = plumber_from(210, firm="Tue 8:00")
    assert answer.released == ("hall/u/c",)
    assert start == moment("Mon 13")


def test_a_firm_visit_stands_though_less_than_the_shortest_is_left_of_its_day() -> None:
    crew = (trade("plumber", shortest_visit=HOUR),)
    of = job(step("b", by="plumber"), trades=crew, bookings=(booking("b", "Tue 15:30", "plumber"),))
    answer = solved(network_of(of))
    assert (answer.starts["bath/u/b"], answer.released) == (moment("Tue 15:30"), ())
    assert sound(of, answer)


def test_no_step_goes_on_over_a_day_that_is_shorter_than_the_shortest_visit() -> None:
    monday, tuesday, *rest = trade("plumber").days
    half_an_hour = Workday(spans("Tue 8-8:30"))
    short = replace(trade("plumber", shortest_visit=HOUR), days=(monday, half_an_hour, *rest))
    of = job(step("b", 600, by="plumber"), trades=(short,))
    answer = solved(network_of(of))
    assert answer.starts["bath/u/b"] == moment("Wed 8")
    assert sound(of, answer)


def test_a_firm_visit_needs_no_notice_any_more() -> None:
    plumber = trade("plumber", earliest=moment("Mon2 8"), notice_days=5)
    of = job(step("b", by="plumber"), trades=(plumber,), bookings=(booking("b", "Mon 9", "plumber"),))
    answer = solved(network_of(of))
    assert answer.starts["bath/u/b"] == moment("Mon 9")
    assert sound(of, answer)


def test_a_visit_may_be_booked_for_any_minute() -> None:
    of = job(step("a"), step("b", by="plumber", after="a"), bookings=(booking("b", "Tue 9:07", "plumber"),))
    answer = solved(network_of(of))
    assert not answer.released
    assert answer.starts["bath/u/b"] == moment("Tue 9:07")
    assert sound(of, answer)


def test_a_window_of_two_minutes_is_met() -> None:
    first = step("a", 63, waits=[wait("b", 28 / 60, within_minutes=30)])
    of = job(first, step("b", after="a ready for b"))
    answer = solved(network_of(of))
    assert moment("Mon 9:31") <= answer.starts["bath/u/b"] <= moment("Mon 9:33")
    assert sound(of, answer)


def test_a_window_that_is_narrow_only_later_is_met() -> None:
    """Ready 28 minutes after the end, to be followed within five hours of an end on Monday, else within 30 minutes."""
    layer = step("a", 63, waits=[wait("b", 28 / 60, within_minutes=5 * HOUR)])
    of = job(step("first", 420), layer, step("b", after="a ready for b"))

    def latest(ends: Minutes) -> Minutes:
        return np.where(ends < moment("Tue 0"), ends + 5 * HOUR, ends + 30)

    network = network_of(of)
    others = [rule for rule in network.rules if not isinstance(rule, Window)]
    windows = [replace(rule, latest=latest) for rule in network.of(Window)]
    monday_is_full = Order("bath/u/first", "bath/u/a", Why("people", "no hour left on Monday"))
    answer = solved(replace(network, rules=(*others, *windows, monday_is_full)))
    end = moment("Tue 9:03")
    assert answer.starts["bath/u/a"] == moment("Tue 8")
    assert end + 28 <= answer.starts["bath/u/b"] <= end + 30


def test_the_grid_stays_coarse_where_a_short_window_lies_out_of_hours() -> None:
    """What is ready at five in the morning can be followed by eight at the latest, or not at all."""
    layer = step("a", 60, waits=[wait("b", 12, within_minutes=12 * HOUR + 20)])
    network = network_of(job(layer, step("b", after="a ready for b", by="late"), trades=(trade("late", "13-16"),)))
    assert widths(network)["bath/u/b"] == 15
