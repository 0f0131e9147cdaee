"""The last start today: how late a layer may start before something behind it loses its day."""

from __future__ import annotations

from bisect import bisect_right
from pathlib import Path

import pytest
from drawn_jobs import drawn_job
from planned_jobs import day as midnights
from planned_jobs import planned
from tiny_jobs import air, booking, ident, job, moment, room, step, trade, wait

from sequencer.answers.on_site.last_start import LastStart, last_starts
from sequencer.answers.on_site.push import Pushed
from sequencer.answers.on_site.site import as_planned
from sequencer.audit import Times, audit
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, plan_of, timed
from sequencer.terms.job import Job
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.place import Faulty

LONG = step("hall/u/long", 48 * 60, by="carpenter")
"""Work elsewhere, so that hand-over is days away."""


def starts_on(of: Job, day: str) -> dict[str, LastStart]:
    """The last starts of a day of a job's plan, by step."""
    whole, plan = planned(of)
    return {one.step: one for one in last_starts(timed(whole, plan), plan, midnights(day))}


def last_of(of: Job, day: str, words: str) -> str:
    """The hour of a step's last start."""
    last = starts_on(of, day)[ident(words)].last
    assert last is not None
    at = last - moment(f"{day} 0")
    return f"{at // HOUR}:{at % HOUR:02d}"


NEXT = step("b", 3 * 60, after="a ready for b", one_go=True)
"""Three hours in one go, of a day from 8 to 12 and 13 to 16: it starts at 13:00 at the latest."""


@pytest.mark.parametrize(
    ("stands", "last"),
    [
        (16, "15:00"),  # begun later it is done the next day, and what waits for it has Wednesday
        (21, "15:00"),  # done by 16:00, ready by 13:00
        (22, "14:00"),
        (23, "13:00"),
        (24, "11:00"),  # done by 13:00 at the latest; begun between 11 and 12 it is done after the break, too late
    ],
)
def test_a_layer_is_done_in_time_for_the_last_start_of_what_waits_for_it(stands: int, last: str) -> None:
    layer = step("a", 60, waits=[wait("b", stands)])
    assert last_of(job(layer, NEXT, LONG), "Mon", "a") == last


def test_a_colder_night_makes_the_last_start_earlier() -> None:
    """22 h at 20 C: done by 15:00 it is ready at 13:00, if the night is as warm."""
    layer = step("a", 60, waits=[wait("b", 22, law="cement", at_temperature=20.0)])

    def last(night: float) -> Minute | None:
        steady = air(("Mon 0", "Mon 16", 20, 0.5), ("Mon 16", "Tue 8", night, 0.5), ("Tue 8", "Fri2 0", 20, 0.5))
        return starts_on(job(layer, NEXT, LONG, rooms=[room("bath", air=steady)]), "Mon")["bath/u/a"].last

    assert last(20) == moment("Mon 14")
    assert moment("Mon 8") <= last(17) < last(19) < last(20)  # type: ignore[operator]


def test_after_the_last_start_it_is_told_what_loses_its_day_and_when_it_then_is() -> None:
    layer = step("a", 60, waits=[wait("b", 23)])
    one = starts_on(job(layer, NEXT, LONG), "Mon")["bath/u/a"]
    assert (one.otherwise.id, one.otherwise.planned, one.otherwise.at) == ("bath/u/b", moment("Tue 8"), moment("Wed 8"))
    assert not one.moves_hand_over


def test_work_that_goes_on_from_the_day_before_is_to_be_done_by_an_hour() -> None:
    """Ten hours end on Tuesday at 11; what waits 22 h for them has until Wednesday 13:00."""
    long_layer = step("a", 10 * 60, waits=[wait("b", 22)])
    one = starts_on(job(long_layer, NEXT, LONG), "Tue")["bath/u/a"]
    assert (one.last, one.done_by) == (None, moment("Tue 15"))
    assert (one.otherwise.id, one.otherwise.at) == ("bath/u/b", moment("Thu 8"))


def test_work_that_nothing_waits_for_goes_on_the_next_day() -> None:
    one = starts_on(job(step("a", 10 * 60), LONG), "Tue")["bath/u/a"]
    assert one.done_by == moment("Tue 16")
    assert (one.otherwise.id, one.otherwise.at) == ("bath/u/a", moment("Wed 8"))


def test_work_that_does_not_fit_into_what_is_left_of_the_day_is_the_next_day_itself() -> None:
    """Four hours of seven, with an hour's break: begun at 11 they are done at 16, begun later they are not."""
    one = starts_on(job(step("a", 4 * 60, one_go=True), LONG), "Mon")["bath/u/a"]
    assert (one.last, one.done_by) == (moment("Mon 11"), moment("Mon 16"))
    assert (one.otherwise.id, one.otherwise.at) == ("bath/u/a", moment("Tue 8"))


def test_a_layer_that_must_be_followed_in_time_bounds_the_start_of_what_follows() -> None:
    """Done at 9, to be followed by 11: at 11:01 the first layer is too old."""
    layer = step("a", 60, waits=[wait("b", 0.5, within_minutes=120)])
    one = starts_on(job(layer, step("b", 60, after="a ready for b"), LONG), "Mon")["bath/u/b"]
    assert one.last == moment("Mon 11")
    assert one.otherwise.too_late and one.otherwise.by == "bath/u/a" and one.otherwise.at is None


def test_a_visit_booked_behind_it_is_kept_to_the_hour() -> None:
    of = job(step("a", 60), step("b", 60, by="plumber", after="a"), LONG, bookings=(booking("b", "Mon 11", "plumber"),))
    assert last_of(of, "Mon", "a") == "10:00"


def test_who_is_booked_today_and_late_is_judged_by_what_follows_not_by_his_hour() -> None:
    of = job(step("a", 60, by="plumber"), step("b", 60, after="a"), LONG, bookings=(booking("a", "Mon 9", "plumber"),))
    assert last_of(of, "Mon", "a") == "14:59"


def test_for_who_comes_at_an_unknown_hour_no_last_start_is_told() -> None:
    of = job(step("a", 0, by="inspector", kind="hold"), trades=[trade("inspector", "9-15", hour_known=False)])
    assert starts_on(of, "Mon") == {}


SEEDS = range(24)


def drawn(seed: int, folder: Path) -> tuple[Job, Plan]:
    """A random job with its plan; where it is faulty, or no order of work fits, the next one of its row."""
    try:
        of = drawn_job(seed, folder)
        return of, plan_of(of, 0.2)
    except (Faulty, NoOrderFits):
        return drawn(seed + len(SEEDS), folder)


@pytest.mark.parametrize("seed", SEEDS)
def test_at_its_last_start_and_all_behind_it_pushed_back_the_audit_finds_nothing(seed: int, tmp_path: Path) -> None:
    of, plan = drawn(seed, tmp_path)
    of = as_planned(of, plan)
    at = timed(of, plan)
    pushed, days = Pushed(at), of.half_days[::2]
    for step_ in plan.steps:
        number = bisect_right(days, step_.start)
        today = (days[number - 1], days[number])
        for one in last_starts(at, plan, today):
            if one.step != step_.id or one.last is None:
                continue
            starts = pushed.starts_after(one.step, one.last)
            pieces = {id: at.network.tasks[id].work.pieces(start) for id, start in starts.items() if id != HAND_OVER}
            later = Times({**at.times.pieces, **pieces}, starts.get(HAND_OVER, plan.finish))
            kept = of.with_bookings(tuple(b for b in of.bookings if b.step != one.step))
            assert audit(kept, at.case.airs, later) == ()
            for id, start in starts.items():
                planned_for = plan.finish if id == HAND_OVER else plan.step(id).start
                assert bisect_right(days, start) == bisect_right(days, planned_for), id
