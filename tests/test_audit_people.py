"""The audit on people and hours: for every sentence it can say, a sound plan and the one change that brings it out."""

from __future__ import annotations

import pytest
from audit_row import Row
from tiny_jobs import booking, decision, for_so_long, job, moment, nights, order, room, spans, step, toilet, trade, wait

from sequencer.terms.house import House

QUIET = spans("Mon 9-15, Tue 9-15, Wed 9-15, Thu 9-15, Fri 9-15")
INSPECTOR = trade("inspector", "9-15", hour_known=False)

ROWS = {
    "work lies in its trade's hours": Row(
        job(step("a")), {"a": "Mon 8-9"}, {"a": "Mon 7-8"}, ("bath/u/a lies outside the hours of you",)
    ),
    "a break is no working time": Row(
        job(step("a")), {"a": "Mon 11:30-12, Mon 13-13:30"}, {"a": "Mon 11:30-12:30"},
        ("bath/u/a lies outside the hours of you",),
    ),
    "a day the trade does not work is none": Row(
        job(step("a", by="plumber"), trades=[trade("plumber", days="Tue Thu")]), {"a": "Tue 8-9"}, {"a": "Wed 8-9"},
        ("bath/u/a lies outside the hours of plumber",),
    ),
    "nothing starts before today": Row(
        job(step("a"), now="Tue 0"), {"a": "Tue 8-9"}, {"a": "Mon 8-9"}, ("bath/u/a starts before the job does",)
    ),
    "the work is all there": Row(
        job(step("a")), {"a": "Mon 8-9"}, {"a": "Mon 8-8:45"}, ("bath/u/a has 45 min of work instead of 60",)
    ),
    "a piece of work takes time": Row(
        job(step("a")), {"a": "Mon 8-9"}, {"a": "Mon 8-9, Mon 9-9"}, ("bath/u/a has a piece that takes no time",)
    ),
    "pieces follow each other": Row(
        job(step("a", 120)), {"a": "Mon 8-10"}, {"a": "Mon 9-10, Mon 8-9"}, ("bath/u/a has pieces out of order",)
    ),
    "nobody stops while he is there": Row(
        job(step("a", 120)), {"a": "Mon 8-10"}, {"a": "Mon 8-9, Mon 10-11"}, ("bath/u/a pauses while you is there",)
    ),
    "work pauses over a night": Row(
        job(step("a", 120)), {"a": "Mon 15-16, Tue 8-9"}, {"a": "Mon 15-16, Wed 8-9"},
        ("bath/u/a pauses while you is there",),
    ),
    "in one go lies within one day": Row(
        job(step("a", 180, one_go=True)), {"a": "Mon 10-12, Mon 13-14"}, {"a": "Mon 15-16, Tue 8-10"},
        ("bath/u/a does not lie within one day",),
    ),
    "where people live the water is back by night": Row(
        job(step("a", 180, services_off=("house water",)), house=House(lived_in=True)),
        {"a": "Mon 8-11"}, {"a": "Mon 15-16, Tue 8-10"}, ("bath/u/a does not lie within one day",),
    ),
    "an unknown hour takes the whole window": Row(
        job(step("a", by="inspector", kind="hold"), trades=[INSPECTOR]), {"a": "Mon 9-15"}, {"a": "Mon 10-15"},
        ("bath/u/a does not take inspector's whole window",),
    ),
    "noise keeps to the house's hours": Row(
        job(step("a", noisy=True), house=House(noise=QUIET)), {"a": "Mon 9-10"}, {"a": "Mon 8-9"},
        ("bath/u/a makes noise outside the hours the house allows",),
    ),
    "nobody comes for less than his shortest visit": Row(
        job(step("a", 240, by="plumber"), trades=[trade("plumber", shortest_visit=120)]),
        {"a": "Mon 14-16, Tue 8-10"}, {"a": "Mon 15-16, Tue 8-11"},
        ("bath/u/a brings plumber for less than the shortest visit",),
    ),
    "on the day of a firm visit they come anyway": Row(
        job(
            step("a", 240, by="plumber"), step("hall/u/b", by="plumber"), trades=[trade("plumber", shortest_visit=120)],
            bookings=(booking("hall/u/b", "Mon 8", "plumber"),),
        ),
        {"a": "Mon 15-16, Tue 8-11", "hall/u/b": "Mon 8-9"}, {"a": "Tue 15-16, Wed 8-11"},
        ("bath/u/a brings plumber for less than the shortest visit",),
    ),
    "hand-over lies in working hours": Row(
        job(step("a")), {"a": "Mon 8-9"}, {}, ("hand-over lies outside working hours",), then_over="Sat 10"
    ),
    "hand-over may fall on the close of a day": Row(
        job(step("a")), {"a": "Mon 8-9"}, {}, ("hand-over lies outside working hours",), "Mon 16", "Mon 16:15"
    ),
    "one pair of hands does one step": Row(
        job(step("a"), step("hall/u/b")), {"a": "Mon 8-9", "hall/u/b": "Mon 9-10"}, {"hall/u/b": "Mon 8:30-9:30"},
        ("hall/u/b needs more hands of you than there are",),
    ),
    "two people do two steps and no third": Row(
        job(step("a"), step("hall/u/b"), step("attic/u/c", hands=2), trades=[trade("you", hands=2)]),
        {"a": "Mon 8-9", "hall/u/b": "Mon 8-9", "attic/u/c": "Mon 9-10"}, {"hall/u/b": "Mon 9-10"},
        ("hall/u/b needs more hands of you than there are", "attic/u/c needs more hands of you than there are"),
    ),
    "the way to the shop takes time": Row(
        job(step("a", where="shop"), step("b"), trades=[trade("you", travel=30)]),
        {"a": "Mon 8-9", "b": "Mon 9:30-10:30"}, {"b": "Mon 9:15-10:15"},
        ("you has no time to travel between bath/u/a and bath/u/b",),
    ),
    "notice is given": Row(
        job(step("a", by="plumber"), trades=[trade("plumber", earliest=moment("Thu 0"))]),
        {"a": "Thu 8-9"}, {"a": "Wed 15-16"}, ("bath/u/a comes sooner than the notice of plumber allows",),
    ),
    "who comes for a firm visit does more that day without notice": Row(
        job(
            step("a", by="plumber"), step("b", by="plumber"), bookings=(booking("a", "Tue 9", "plumber"),),
            trades=[trade("plumber", earliest=moment("Thu 0"))],
        ),
        {"a": "Tue 9-10", "b": "Tue 15-16"}, {"b": "Wed 8-9"},
        ("bath/u/b comes sooner than the notice of plumber allows",),
    ),
    "an inspector is asked in time": Row(
        job(
            step("a", by="inspector", kind="hold"), now="Mon 16",
            trades=[trade("inspector", "9-15", hour_known=False, weeks=1, ask_by=tuple(
                moment(words) for words in ("Fri 15", "Mon 15", "Tue 15", "Wed 15", "Thu 15")
            ))],
        ),
        {"a": "Wed 9-15"}, {"a": "Tue 9-15"}, ("bath/u/a: it is too late to ask inspector for that day",),
    ),
    "asking in time holds for every hour of the day": Row(
        job(
            step("a", by="office"), now="Mon 16",
            trades=[trade("office", weeks=1, ask_by=tuple(
                moment(words) for words in ("Mon 7", "Mon 15", "Tue 15", "Wed 15", "Thu 15")
            ))],
        ),
        {"a": "Wed 9-10"}, {"a": "Tue 14-15"}, ("bath/u/a: it is too late to ask office for that day",),
    ),
    "a firm visit stands": Row(
        job(step("a"), bookings=(booking("a", "Tue 9"),)), {"a": "Tue 9-10"}, {"a": "Tue 8-9"},
        ("bath/u/a is not at the hour it is booked for",),
    ),
    "material is on site": Row(
        job(step("a"), orders=(order("a", arrives="Wed 0"),)), {"a": "Wed 8-9"}, {"a": "Tue 8-9"},
        ("bath/u/a starts before tiles is on site",),
    ),
    "what is made to measure is there two working days after the measuring day": Row(
        job(step("m"), step("a"), orders=(order("a", made_after="m", lead=2),)),
        {"m": "Thu 15-16", "a": "Tue2 8-9"}, {"m": "Fri 8-9"}, ("bath/u/a starts before tiles is on site",),
    ),
    "the water is not off for longer than the house allows": Row(
        job(step("a", 90, services_off=("house water",)), house=House(services={"house water": 120})),
        {"a": "Mon 8-9:30"}, {"a": "Mon 11-12, Mon 13-13:30"},
        ("bath/u/a takes the house water off for longer than the house allows",),
    ),
    "nobody is in a house that is shut": Row(
        job(step("a"), house=House(access=spans("Mon 9-15, Tue 9-15"))), {"a": "Mon 9-10"}, {"a": "Mon 8-9"},
        ("bath/u/a is done while nobody may be in the house",), "Tue 12",
    ),
    "the shop is open when the house is shut": Row(
        job(step("a", where="shop"), house=House(access=spans("Tue 9-15"))), {"a": "Mon 8-9"}, {},
        ("hand-over lies outside working hours",), "Tue 12", "Tue 8:30",
    ),
    "an inspector's window is as long as the house is open": Row(
        job(step("a", by="inspector", kind="hold"), trades=[INSPECTOR], house=House(access=spans("Mon 10-14"))),
        {"a": "Mon 10-14"}, {"a": "Mon 10-13"}, ("bath/u/a does not take inspector's whole window",), "Mon 14",
    ),
    "what is heavy goes up while the lift is booked": Row(
        job(step("a", lift=True), house=House(lift=spans("Tue 9-11"))), {"a": "Tue 10-11"}, {"a": "Tue 10:30-11:30"},
        ("bath/u/a carries while the lift is not booked",),
    ),
    "nobody else is in the fumes": Row(
        job(step("a", fumes=for_so_long(3)), step("b", by="tiler"), rooms=[room("bath", at_once=2)]),
        {"a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"}, ("bath/u/b is done in the fumes of bath/u/a",),
    ),
    "fumes fill the way in": Row(
        job(
            step("hall/u/a", fumes=for_so_long(3)), step("b", by="tiler"),
            rooms=[room("hall"), room("bath", reached_through="hall")],
        ),
        {"hall/u/a": "Mon 8-9", "b": "Mon 13-14"}, {"b": "Mon 11-12"},
        ("bath/u/b is done in the fumes of hall/u/a",),
    ),
    "who puts the next coat on bears the fumes": Row(
        job(
            step("a", fumes=for_so_long(8), waits=[wait("b", 2)]), step("b", after="a ready for b"),
            step("c", after="b"),
        ),
        {"a": "Mon 8-9", "b": "Mon 13-14", "c": "Tue 8-9"}, {"c": "Mon 15-16"},
        ("bath/u/c is done in the fumes of bath/u/a",),
    ),
    "fumes are gone by the evening": Row(
        job(step("a", fumes=for_so_long(8)), house=House(fumes_gone=spans("Mon 20-24, Tue 20-24"))),
        {"a": "Mon 10-11"}, {"a": "Mon 13-14"}, ("bath/u/a leaves fumes in the house for too long",),
    ),
    "the toilet is back in the evening": Row(
        job(step("a"), step("b", after="a"), house=toilet("a", "b")), {"a": "Mon 8-9", "b": "Mon 15-16"},
        {"b": "Tue 8-9"}, ("bath/u/a takes the toilet away for 1 nights",),
    ),
    "two nights without a toilet are two": Row(
        job(step("a"), step("b", after="a"), house=toilet("a", "b", 2)), {"a": "Mon 15-16", "b": "Wed 15-16"},
        {"b": "Thu 8-9"}, ("bath/u/a takes the toilet away for 3 nights",),
    ),
    "a decision is made first": Row(
        job(step("a"), decisions=(decision("a", "Tue 0"),)), {"a": "Tue 8-9"}, {"a": "Mon 8-9"},
        ("bath/u/a starts before client decides on colour",),
    ),
    "what comes is looked at before it is used": Row(
        job(step("a"), orders=(order("a", arrives="Tue 0", check=60),)), {"a": "Tue 9-10"}, {"a": "Tue 8-9"},
        ("bath/u/a starts before tiles is on site",),
    ),
    "what is made is looked at over a night": Row(
        job(step("m"), step("a"), orders=(order("a", made_after="m", lead=1, check=450),)),
        {"m": "Mon 8-9", "a": "Thu 8:30-9:30"}, {"a": "Thu 8:15-9:15"}, ("bath/u/a starts before tiles is on site",),
    ),
    "a test is looked after through the night": Row(
        job(step("a", look_in=for_so_long(16)), step("b", after="a")), {"a": "Mon 15-16", "b": "Thu 8-9"},
        {"a": "Thu 15-16", "b": "Mon2 8-9"}, ("bath/u/a is left alone for too long before bath/u/b",),
    ),
    "who lives there looks in until bedtime": Row(
        job(
            step("a", look_in=for_so_long(8)), step("b", after="a", by="tiler"), trades=[trade("tiler", "4-8")],
            house=House(lived_in=True, nights=nights()),
        ),
        {"a": "Fri 15-16", "b": "Mon2 6-7"}, {}, (),
    ),
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_a_sound_plan_passes_and_one_change_brings_out_one_sentence(row: Row) -> None:
    assert row.before() == ()
    assert row.after() == row.says


def test_a_step_without_a_time_is_found() -> None:
    assert Row(job(step("a"), step("b")), {"a": "Mon 8-9"}, {}, ()).before() == ("bath/u/b has no time",)


def test_noise_may_stop_where_the_house_wants_quiet() -> None:
    noisy = job(step("a", 180, noisy=True), house=House(noise=QUIET))
    assert Row(noisy, {"a": "Mon 14-15, Tue 9-11"}, {}, ()).before() == ()


def test_a_room_at_once_and_hands_are_counted_apart() -> None:
    two = job(step("a"), step("b", by="tiler"), rooms=[room("bath", at_once=2)])
    assert Row(two, {"a": "Mon 8-9", "b": "Mon 8-9"}, {}, ()).before() == ()
