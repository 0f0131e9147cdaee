"""When a layer is ready, for every end of work, and how its length is said."""

from __future__ import annotations

from dataclasses import replace

import pytest
from waits_air import HERE, START, air_of, clock, minutes, steady, wait

from sequencer.terms.minute import HOUR
from sequencer.terms.wait import Limit, Measured, Wait
from sequencer.waits.clock import wait_clock
from sequencer.waits.progress import NEVER
from sequencer.waits.words import length

NO_COLD = Limit("stops", HERE, coldest=5.0)


def test_progress_is_exact_inside_an_hour_and_ready_is_rounded_up_to_a_minute() -> None:
    readies = clock("cement", 24, steady(17.0)).ready(minutes(0, 1, 59, 61))
    assert (readies - minutes(0, 1, 59, 61)).tolist() == [1707, 1707, 1707, 1707]


def test_after_the_last_hour_of_air_its_pace_goes_on() -> None:
    assert clock("fixed", 1000, steady(20.0, hours=2)).hours(START) == 1000.0
    assert clock("flood wait", 24, air_of([20.0, 8.0])).hours(START) == 1 + 23 * 2


def test_before_the_first_hour_of_air_its_pace_stands() -> None:
    assert clock("flood wait", 2, air_of([8.0, 20.0])).hours(START - 3 * HOUR) == 4.0


def test_a_last_hour_without_progress_means_never() -> None:
    stuck = clock("cement", 24, air_of([20.0] * 10 + [2.0]))
    assert stuck.ready(minutes(0))[0] == NEVER
    assert stuck.working(START) == "24 h at 20 C; at 18 C here, never: too cold"


def test_a_layer_that_is_just_ready_when_the_air_stops_it_does_not_wait_for_the_air_to_return() -> None:
    assert clock("fixed", 2, air_of([10.0, 10.0, 1.0, 1.0, 10.0]), NO_COLD).hours(START) == 2.0


def test_the_floor_is_counted_by_the_clock_and_the_later_of_the_two_holds() -> None:
    quick = clock("water film", 24, steady(30.0, 0.3), floor=24.0)
    slow = clock("water film", 24, steady(12.0, 0.7), floor=24.0)
    assert quick.hours(START) == 24.0
    assert slow.hours(START) > 24.0
    assert quick.working(START).endswith("; never under 24 h")
    assert "never under" not in slow.working(START)


def test_the_latest_start_counts_from_the_end_of_work_or_from_ready() -> None:
    ends = minutes(0, 90)
    for of_ready, expected in ((False, minutes(600, 690)), (True, minutes(720, 810))):
        tied = wait_clock(wait("fixed", 2, within=600, of_ready=of_ready), steady(20.0))
        latest = tied.latest(ends, tied.ready(ends))
        assert latest is not None
        assert latest.tolist() == expected.tolist()


def test_a_wait_without_a_within_has_no_latest_start() -> None:
    free = clock("fixed", 2, steady(20.0))
    assert free.latest(minutes(0), minutes(120)) is None


@pytest.mark.parametrize(
    ("law", "hours", "air", "said", "words"),
    [
        ("cement", 48, steady(17.0), {}, "48 h at 20 C; at 17 C here, 57 h"),
        ("cement", 24, steady(17.0), {}, "24 h at 20 C; at 17 C here, 28 h"),
        ("cement", 24, steady(17.0), {"at": 21.0}, "24 h at 21 C; at 17 C here, 30 h"),
        ("fixed", 0.75, steady(17.0), {}, "45 min by the clock"),
        ("fixed", 30 * 24, steady(17.0), {}, "30 d by the clock"),
        ("flood wait", 24, steady(8.0), {}, "24 h at 20 C; at 8 C here, 48 h"),
        ("joint compound", 17, steady(15.0, 0.7), {"at": 21.0}, "17 h at 21 C 50 %; at 15 C 70 % here, 39 h"),
        ("paint", 4, steady(18.0, 0.6), {"damp": 0.4}, "4 h at 25 C 40 %; at 18 C 60 % here, 7 h 11 min"),
        (
            "sealant",
            24,
            steady(23.0),
            {"deep": 6.0},
            "24 h at 23 C 50 % for 2.4 mm, 6.3 d for 6 mm; at 23 C 50 % here, 6.3 d",
        ),
    ],
)
def test_the_working_is_one_sentence(law: str, hours: float, air: object, said: dict[str, float], words: str) -> None:
    assert clock(law, hours, air, **said).working(START) == words  # type: ignore[arg-type]


def test_the_working_says_how_long_the_air_stood_still_and_why() -> None:
    air = air_of([15.0, 4.0, 4.0, 15.0, 15.0])
    assert (
        clock("fixed", 3, air, NO_COLD).working(START)
        == "3 h by the clock; here 5 h; stands still for 2 h of it, too cold"
    )
    damp = air_of([20.0] * 4, [0.5, 1.0, 0.5, 0.5])
    assert clock("joint compound", 2, damp).working(START).endswith("; stands still for 1 h of it, too damp")


def test_the_working_says_what_of_the_air_is_assumed() -> None:
    guessed = steady(18.0, 0.6, how="assumed")
    assert clock("cement", 24, guessed).working(START).endswith("; temperature assumed")
    assert clock("paint", 4, guessed).working(START).endswith("; temperature and humidity assumed")
    assert clock("fixed", 4, guessed).working(START) == "4 h by the clock"


def test_the_working_warns_of_air_the_law_is_not_known_for() -> None:
    assert clock("epoxy", 24, steady(12.0)).working(START).endswith("; the law is only known from 16 to 32 C")
    assert clock("paint", 4, steady(20.0, 0.9)).working(START).endswith("; the law is only known from 0 to 85 %")


def read_at(hour: int, of: Wait, ready: bool = True) -> Wait:
    """The same wait with a reading so many hours after START."""
    return replace(of, measured=Measured(START + hour * HOUR, ready, "0.4 %", HERE))


def test_a_reading_ends_the_wait_of_all_work_done_before_it() -> None:
    read = wait_clock(read_at(20, wait("joint compound", 17, at=21.0)), steady(12.0, 0.8))
    assert (read.ready(minutes(0, 600, 1200)) - START).tolist() == [1200, 1200, 1200]
    assert read.ready(minutes(1201))[0] > START + 60 * HOUR
    said = "17 h at 21 C 50 %; at 12 C 80 % here, 68 h; ready by a reading of 0.4 % after 20 h"
    assert read.working(START) == said
    assert "reading" not in read.working(START + 1201)


def test_a_reading_ends_a_wait_later_than_its_law_too_but_never_before_its_floor() -> None:
    late = wait_clock(read_at(40, wait("cement", 24)), steady(20.0))
    assert late.hours(START) == 40.0
    floor = wait_clock(read_at(10, wait("water film", 24, floor=24.0)), steady(20.0))
    assert floor.hours(START) == 24.0


def test_a_reading_of_a_layer_that_is_not_ready_puts_ready_off_to_itself() -> None:
    early = wait_clock(read_at(10, wait("cement", 24), ready=False), steady(20.0))
    late = wait_clock(read_at(40, wait("cement", 24), ready=False), steady(20.0))
    assert (early.hours(START), late.hours(START), late.hours(START + 41 * HOUR)) == (24.0, 40.0, 24.0)
    assert late.working(START).endswith("; not ready yet by a reading of 0.4 % after 40 h")


def test_how_much_of_a_wait_is_over_counts_what_is_behind() -> None:
    by_law = clock("flood wait", 24, air_of([20.0] * 12 + [8.0] * 24))
    assert [by_law.share(START, START + hour * HOUR) for hour in (-1, 0, 12, 24, 36, 99)] == [0, 0, 0.5, 0.75, 1, 1]
    by_floor = clock("fixed", 4, steady(20.0), floor=8.0)
    assert [by_floor.share(START, START + hour * HOUR) for hour in (2, 4, 8)] == [0.25, 0.5, 1.0]


def set_then_dry(**said: float | None) -> Wait:
    """A setting compound that hardens in 90 min and then has to dry like any other."""
    return replace(wait("setting compound", 1.5, **said), then=(wait("joint compound", 17, at=21.0),))  # type: ignore[arg-type]


def test_stages_follow_one_another_each_by_its_own_law() -> None:
    air = air_of([21.0] * 4 + [12.0] * 200, [0.5] * 4 + [0.8] * 200)
    staged = wait_clock(set_then_dry(), air)
    hard = clock("setting compound", 1.5, air).ready(minutes(0, 300))
    dry = clock("joint compound", 17, air, at=21.0).ready(hard)
    assert staged.ready(minutes(0, 300)).tolist() == dry.tolist()
    assert staged.reference_hours == 18.5


def test_the_working_tells_stage_after_stage_and_what_they_come_to() -> None:
    assert wait_clock(set_then_dry(floor=30.0), steady(21.0)).working(START) == (
        "90 min at 21 C; at 21 C here, 90 min; then 17 h at 21 C 50 %; at 21 C 50 % here, 17 h; "
        "never under 30 h; in all 30 h"
    )


def test_stages_after_one_that_never_ends_never_begin() -> None:
    frost = wait_clock(replace(wait("cement", 24), then=(wait("fixed", 4),)), steady(2.0))
    assert frost.ready(minutes(0))[0] == NEVER
    assert frost.hours(START) == float("inf")


def test_how_much_of_a_staged_wait_is_over_counts_the_stages_done() -> None:
    staged = wait_clock(set_then_dry(), steady(21.0))
    shares = [staged.share(START, START + minute) for minute in (45, 90, 90 + 510, 90 + 1020)]
    assert shares == pytest.approx([0.75 / 18.5, 1.5 / 18.5, 10 / 18.5, 1.0])


@pytest.mark.parametrize(
    ("minutes", "said"),
    [(60 * 60 + 9, "60 h"), (60 * 60 + 30, "61 h"), (9 * 60 + 50, "9 h 50 min"), (29.4, "29 min"), (7560, "5.3 d")],
)
def test_a_length_is_told_to_the_nearest_so_that_it_meets_the_dates_beside_it(minutes: float, said: str) -> None:
    assert length(minutes) == said
