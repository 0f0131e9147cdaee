"""The site diary, its plain twin and the stories of its cells."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest
from golden_text import same_as_golden
from hypothesis import given, settings
from hypothesis import strategies as st
from plans import ROOM, orchard_row, spans, step, t, two_rooms

from sequencer.plan import Closed, Goal, Plan
from sequencer.terms.words import MARKS, SURFACES, in_words, say_ready
from sequencer.views.clock import Clock, list_of_days
from sequencer.views.columns import columns_of
from sequencer.views.diary import diary
from sequencer.views.lines import page, text_of
from sequencer.views.plain import plain_diary
from sequencer.views.story import story
from sequencer.views.table import table_of
from sequencer.views.titles import title_of
from sequencer.views.wide import story_lines, wide_diary


def told(plan: Plan, day: date, surface: str) -> str:
    return "\n".join(story_lines(story(plan, day, surface, ROOM), 80))


def row_of(plan: Plan, day: str, width: int = 80) -> list[str]:
    """The cells of a day's first line, without blanks."""
    lines = [text_of(line) for line in table_of(plan, ROOM, width)[1]]
    line = next(line for line in lines if line[1:10].strip() == day)
    return [cell.strip() for cell in line.split("|")]


def test_the_diary_at_80_columns_is_as_it_was_read() -> None:
    same_as_golden("diary-80.txt", diary(orchard_row()))


def test_the_diary_with_a_story_at_120_columns_is_as_it_was_read() -> None:
    same_as_golden("diary-120.txt", wide_diary(orchard_row()))


def test_the_plain_twin_is_as_it_was_read() -> None:
    same_as_golden("plain.txt", plain_diary(orchard_row()))


def test_two_rooms_stand_one_under_the_other() -> None:
    text = diary(two_rooms())
    same_as_golden("two-rooms.txt", text)
    assert text.index(": Bathroom") < text.index(": Hall")


@pytest.mark.parametrize("width", [60, 72, 80, 100, 120, 200])
def test_no_line_of_a_diary_is_wider_than_the_page(width: int) -> None:
    assert max(len(line) for line in diary(orchard_row(), width).splitlines()) <= width


def test_a_diary_of_ours_is_ascii_and_leaves_no_blanks_at_line_ends() -> None:
    for text in (diary(orchard_row()), wide_diary(orchard_row()), plain_diary(orchard_row())):
        assert text.isascii()
        assert not re.search(r"[ \t]\n", text)


def test_a_holiday_says_shut_and_its_name() -> None:
    assert row_of(orchard_row(), "Fri 3")[-2:] == ["shut", "Good Friday"]


def test_a_working_day_without_anybody_says_free_unless_the_room_sets() -> None:
    assert row_of(orchard_row(), "Thu 12")[-2:] == ["free", "nobody booked"]
    assert row_of(orchard_row(), "Tue 24")[-2:] == ["sets", "nobody"]


def test_a_holiday_somebody_works_on_is_a_day_like_any_other() -> None:
    plan = orchard_row()
    extra = step("paint", "touch", "Touch up", spans("3 April 08:00-09:00"), ("ceiling",), "painter")
    cells = row_of(replace(plan, steps=tuple(sorted((*plan.steps, extra), key=lambda s: (s.start, s.id)))), "Fri 3")
    assert cells[-1] == "painter"
    assert "Touch up" in cells


def test_a_weekend_is_one_line_and_a_worked_saturday_is_not_part_of_it() -> None:
    plan = orchard_row()
    extra = step("paint", "touch", "Touch up", spans("28 March 08:00-09:00"), ("ceiling",), "painter")
    worked = replace(plan, steps=tuple(sorted((*plan.steps, extra), key=lambda s: (s.start, s.id))))
    days = [line.split("|")[0].strip() for line in page(table_of(worked, ROOM, 80)[1]).splitlines()]
    at = days.index("Sat 28")
    assert days[at - 1] == "Fri 27"
    assert days[at + 1] == "- -"
    assert days[at + 2] == "Mon 30"


def test_a_wait_runs_down_its_column_and_says_its_word_once() -> None:
    long = Closed(ROOM, "floor", "keep off", t("4 March 12:00"), t("9 March 11:00"), "", f"{ROOM}/strip-out/walls")
    plan = replace(two_rooms(), steps=orchard_row().steps[:2], closed=(long,), finish=t("10 March 16:00"))
    column = [line.split("|")[1].strip() for line in page(table_of(plan, ROOM, 80)[1]).splitlines()[2:]]
    assert column[-6:] == ["x sets", "x", "x", "x", ". 11:00", ""]


@pytest.mark.parametrize(
    ("grade", "how", "shown"),
    [
        ("keep off", "sets", "x sets"),
        ("leave", "sets", ": sets"),
        ("keep off", "dries", "x dries"),
        ("leave", "dries", "' dries"),
        ("keep off", "water on", "~"),
    ],
)
def test_each_kind_of_closing_has_its_mark(grade: str, how: str, shown: str) -> None:
    one = step("paint", "coat", "Paint", spans("2 March 08:00-16:00"), ("floor",))
    held = Closed(ROOM, "floor", grade, one.end, t("4 March 12:00"), "", one.id, how)  # type: ignore[arg-type]
    plan = replace(two_rooms(), steps=(one,), closed=(held,), finish=t("5 March 12:00"))
    assert row_of(plan, "Tue 3")[1] == shown


def test_more_surfaces_than_columns_fold_into_the_wet_area() -> None:
    one = step("strip-out", "strip", "Strip", spans("2 March 08:00-16:00"), SURFACES)
    plan = replace(two_rooms(), steps=(one,))
    names = [column.name for column in columns_of(plan, ROOM, 4)]
    assert names == ["floor", "wet area", "dry walls", "ceiling"]
    assert [column.name for column in columns_of(plan, ROOM, 5)] == list(SURFACES)
    assert row_of(plan, "Mon 2")[1:5] == ["Strip"] * 4


def test_parts_of_a_surface_stand_in_its_column() -> None:
    one = step("wall-tile", "set", "Tile", spans("2 March 08:00-16:00"), ("wet walls, first wall",))
    plan = replace(two_rooms(), steps=(one,))
    assert [column.name for column in columns_of(plan, ROOM, 9)] == ["wet walls"]
    assert "Tile (first wall): you" in told(plan, date(2026, 3, 2), "wet walls")


def test_more_steps_than_lines_are_counted() -> None:
    steps = tuple(
        step("paint", f"coat {n}", f"Coat {n}", spans(f"2 March {8 + n:02}:00-{9 + n:02}:00"), ("floor",))
        for n in range(5)
    )
    plan = replace(two_rooms(), steps=steps)
    column = [line.split("|")[1].strip() for line in page(table_of(plan, ROOM, 80)[1]).splitlines()[2:]]
    assert column[:3] == ["Coat 0", "Coat 1", "+3 more"]


def test_a_step_paused_over_days_stays_in_its_cell_in_brackets() -> None:
    one = step("wall-tile", "set", "Tile", spans("2 March 08:00-16:00", "4 March 08:00-12:00"), ("wet walls",))
    plan = replace(two_rooms(), steps=(one,), finish=one.end)
    assert row_of(plan, "Tue 3")[1] == "(Tile)"


def test_a_surface_closed_at_noon_shows_that_even_if_only_the_next_layer_waits_by_night() -> None:
    plan = orchard_row()
    tape = f"{ROOM}/joint-compound/tape"
    until_three = Closed(ROOM, "ceiling", "leave", t("11 March 10:00"), t("12 March 15:00"), "", tape)
    assert row_of(plan, "Thu 12")[4] == "' dries"
    assert row_of(replace(plan, closed=(*plan.closed, until_three)), "Thu 12")[4] == ":"


@pytest.mark.parametrize(
    ("finish", "said"),
    [
        ("9 April 09:00", "Promised for Fri 24 April: kept, with 15 days to spare."),
        ("24 April 16:00", "Promised for Fri 24 April: kept, on the day."),
        ("27 April 09:00", "Promised for Fri 24 April: missed by 3 days."),
    ],
)
def test_the_foot_says_whether_the_promise_is_kept(finish: str, said: str) -> None:
    assert said in diary(replace(orchard_row(), finish=t(finish)))


def test_the_foot_says_how_much_shorter_the_plan_could_be_at_best() -> None:
    unproven = replace(orchard_row(), at_best=t("8 April 21:00"), goals=(Goal("hand-over", 77, 76),))
    assert "Could at best be 12 h shorter." in diary(unproven)
    assert "Shortest possible." in diary(orchard_row())


def test_a_call_that_is_overdue_says_now() -> None:
    plan = orchard_row()
    assert "CALL NOW, was due Fri 27" in diary(plan)
    assert "CALL NOW" not in diary(replace(plan, as_of=t("20 February 08:00")))


def test_a_deadline_at_midnight_names_the_day_that_ends() -> None:
    assert Clock("America/Halifax").by(t("3 March 00:00")) == "Mon 2 March"
    assert Clock("America/Halifax").by(t("3 March 00:01")) == "Tue 3 March 00:01"


def test_cautions_of_recipes_stand_under_the_diary_and_those_of_steps_with_their_step() -> None:
    page, sentences = (" ".join(text.split()) for text in (diary(orchard_row()), plain_diary(orchard_row())))
    for step_id, text in orchard_row().cautions:
        assert (text.replace(", ", ": ", 1) in page or text in page) == (step_id is None)
        assert text in sentences
    assert "2 steps have cautions of their own" in page


def test_hand_over_stands_in_the_diary_even_where_no_step_is_left() -> None:
    plan = replace(orchard_row(), finish=t("10 April 08:15"))
    assert row_of(plan, "Fri 10")[-2:] == ["hand over", ""]
    assert "Friday 10 April. Hand-over 08:15." in plain_diary(plan)


def test_the_story_of_a_cell_under_water() -> None:
    same_as_golden("story-under-water.txt", told(orchard_row(), date(2026, 3, 16), "floor") + "\n")


@pytest.mark.parametrize(
    ("day", "surface", "said"),
    [
        (date(2026, 3, 13), "wet walls", "(recipes/wetroom-membrane.yaml:20:7)"),
        (date(2026, 3, 13), "wet walls", "Second coat: wet thickness, air"),
        (date(2026, 3, 18), "wet walls", "day 1 of 3"),
        (date(2026, 3, 24), "floor", "Free again from Tue 24 March 16:15"),
        (date(2026, 3, 30), "floor", "Next here: Toilet, vanity and taps set, plumber, Thu 2 April 08:00"),
        (date(2026, 4, 3), "room", "Nobody may work: Good Friday."),
        (date(2026, 4, 3), "floor", "Free, nobody booked."),
        (date(2026, 3, 23), "floor", "no later than Mon 23 March"),
        (date(2026, 3, 13), "wet walls", "if too late: Wash the first coat and put it on again"),
        (date(2026, 3, 17), "floor", "if it fails, again: Test drained, Second coat, Drain plugged"),
        (date(2026, 4, 9), "room", "Hand-over: 09:00"),
        (date(2026, 4, 9), "room", "the joints stand 29 h until they are ready for water"),
        (date(2026, 3, 10), "floor", "Free; nobody works on it."),
        (date(2026, 3, 6), "ceiling", "A licensed electrician does this; the local code decides"),
    ],
)
def test_a_story_says(day: date, surface: str, said: str) -> None:
    assert said in " ".join(told(orchard_row(), day, surface).split())


def test_every_cell_of_the_diary_has_a_story() -> None:
    plan = orchard_row()
    grid, _ = table_of(plan, ROOM, 80)
    for row in grid.rows:
        for name in [*(column.name for column in grid.columns), "room"]:
            one = story(plan, row.first, name, ROOM, row.last)
            assert one.sections
            assert one.sections[0].name == ""


def test_the_marks_are_six_different_signs_of_ascii() -> None:
    assert {mark.sign for mark in MARKS.values()} == set("x:'~?.")


@pytest.mark.parametrize(
    ("text", "uk"),
    [
        ("Rough plumbing", "First-fix plumbing"),
        ("Drywall on the ceiling", "Plasterboard on the ceiling"),
        ("Faucets and outlets", "Taps and sockets"),
        ("the drafting table", "the drafting table"),
    ],
)
def test_trade_words_follow_the_job(text: str, uk: str) -> None:
    assert in_words(text, "UK") == uk
    assert in_words(text, "US") == text


def test_a_purpose_nobody_listed_is_named_as_it_is() -> None:
    assert say_ready("polish") == "for polish"
    assert say_ready("draught", "UK") == "for a draught"


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ([10, 12], "Tue 10 and Thu 12 March"),
        ([10, 11, 12], "Tue 10 to Thu 12 March"),
        ([10], "Tue 10 March"),
        ([9, 10, 12, 17, 18], "Mon 9 to Tue 10, Thu 12 and Tue 17 to Wed 18 March"),
    ],
)
def test_days_are_listed_as_one_says_them(days: list[int], said: str) -> None:
    assert list_of_days([date(2026, 3, day) for day in days]) == said


def test_a_day_of_another_month_is_never_taken_for_one_of_the_month_before() -> None:
    days = [date(2027, 2, 1), date(2027, 3, 4), date(2027, 3, 5), date(2027, 3, 8)]
    assert list_of_days(days) == "Mon 1 February, Thu 4 March to Fri 5 and Mon 8 March"


@pytest.mark.parametrize(("title", "said"), [("Tiled, long wall", "Tiled, long wall"), ("Tiled", "Tiled (long wall)")])
def test_a_part_is_told_once(title: str, said: str) -> None:
    plan = orchard_row()
    tiled = replace(plan.steps[0], title=title, surfaces=("wet walls, long wall",))
    assert title_of(plan, tiled) == said


@given(
    st.sampled_from(["America/Halifax", "Europe/London", "Australia/Lord_Howe", "America/Phoenix", "Asia/Kolkata"]),
    st.dates(date(2000, 1, 1), date(2037, 12, 30)),
)
@settings(max_examples=60, deadline=None)
def test_a_minute_lies_between_the_midnights_of_its_day(zone: str, day: date) -> None:
    clock = Clock(zone)
    first, end = clock.midnight(day), clock.midnight(day + timedelta(days=1))
    assert clock.day(first) == day == clock.last_day(end)
    assert clock.day(end) == day + timedelta(days=1)
    assert end - first in (23 * 60, 23 * 60 + 30, 24 * 60, 24 * 60 + 30, 25 * 60)
