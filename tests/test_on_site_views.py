"""A day on site in words: golden texts, lines that fit, and the same as JSON."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date

import pytest
from golden_text import same_as_golden
from plans import B, orchard_row, t

from sequencer.answers.on_site.calls import Call, Unsure
from sequencer.answers.on_site.house_today import LookIn, Notice, Off
from sequencer.answers.on_site.last_start import LastStart, Otherwise
from sequencer.answers.on_site.may import May, Reason
from sequencer.answers.on_site.waiting_hour import Filler, WaitingHour
from sequencer.network.model import Why
from sequencer.plan import UnderWay
from sequencer.terms.place import Place
from sequencer.views.on_site.may import may, may_as_json
from sequencer.views.on_site.sign import sign, sign_as_json
from sequencer.views.on_site.today import OnTheDay, today
from sequencer.views.on_site.today_json import today_as_json
from sequencer.views.on_site.week import week, week_as_json

PLAN = orchard_row()
STANDS = Why("material", "the coat has to stand first", Place("recipes/wetroom-membrane.yaml", 31, 14))


def last_start(id: str, start: str, last: str, done_by: str, otherwise: Otherwise, cold: float | None) -> LastStart:
    return LastStart(B + id, t(start), t(last), t(done_by), otherwise, cold, otherwise.at is None)


def visits() -> tuple[Call, ...]:
    """The plumber to be settled while an inspection is still to pass; the inspector asked the day before."""
    plumber = next(visit for visit in PLAN.visits if visit.id == "v5")
    inspector = next(visit for visit in PLAN.visits if visit.id == "v4")
    when = {"ask": t("19 March 00:00"), "settle": t("18 March 00:00"), "remind": t("2 April 00:00")}
    unsure = (Unsure(B + "wetroom-membrane/read", "has to pass first"), Unsure("glass", "not ordered yet"))
    return (
        Call(inspector, "ask", t("16 March 15:00"), True, (), when),
        Call(plumber, "settle", t("18 March 00:00"), False, unsure, when),
        Call(plumber, "remind", t("2 April 00:00"), False, (), when),
    )


def found() -> OnTheDay:
    """What was worked out for Monday 16 March."""
    wed = Otherwise(B + "wetroom-membrane/read", t("17 March 09:00"), t("18 March 09:00"), STANDS)
    coat = B + "wetroom-membrane/coat 2"
    never = Otherwise(B + "wetroom-membrane/fill", t("16 March 08:00"), None, STANDS, coat, True)
    hour = WaitingHour(
        t("16 March 13:00"),
        t("16 March 16:00"),
        (
            Filler(B + "wall-tile/set", t("16 March 13:00"), t("16 March 16:00"), whole=False),
            Filler(B + "sealant/joints", t("16 March 13:00"), t("16 March 14:00"), whole=True),
        ),
    )
    half_an_hour = (t("16 March 08:00"), t("16 March 08:30"))
    idle = WaitingHour(t("16 March 09:00"), t("16 March 12:00"), ())
    return OnTheDay(
        last=(
            last_start("wetroom-membrane/fill", "16 March 08:00", "16 March 08:33", "16 March 09:03", wed, 11.6),
            last_start("wetroom-membrane/coat 2", "16 March 08:00", "16 March 10:00", "17 March 09:00", never, None),
        ),
        waiting=(idle, hour),
        calls=visits(),
        look_ins=(LookIn(B + "wetroom-membrane/fill", 480, t("16 March 08:30"), t("17 March 09:00")),),
        off=(Off("house water", "bathroom", B + "wetroom-membrane/fill", (half_an_hour,)),),
    )


MONDAY = date(2026, 3, 16)
NOTICE = Notice(found().off, {"bathroom": ("Water, never leave the test alone overnight", "Silica, cut wet")})


def fits(text: str, width: int) -> None:
    assert max(map(len, text.splitlines())) <= width
    assert text.endswith("\n")


def test_today_tells_the_day_in_eighty_columns() -> None:
    text = today(PLAN, MONDAY, found())
    fits(text, 80)
    same_as_golden("on-site-today.txt", text)


@pytest.mark.parametrize("day", [date(2026, 3, 7), date(2026, 3, 21), date(2026, 4, 3), date(2026, 4, 9)])
def test_a_weekend_a_closed_floor_a_holiday_and_hand_over_are_days_too(day: date) -> None:
    text = today(PLAN, day, OnTheDay((), (), ()))
    fits(text, 80)
    same_as_golden(f"on-site-{day}.txt", text)


def test_nothing_is_free_behind_a_closed_floor() -> None:
    text = today(PLAN, date(2026, 3, 21), OnTheDay((), (), ()))
    assert "nobody gets in before 21:00, the floor is closed" in " ".join(text.split())


def test_what_is_measured_is_told_with_the_step_it_has_to_come_before() -> None:
    """A screed is read from the day before it is expected ready until somebody goes on with it; sizes on their day."""
    read = (
        "MEASURE Floor levelled: expected ready for cover Mon 9 March 02:00; read it, before First coat, corners and "
        "drain taped (Fri 13 March 08:00): what is read counts, sooner or later"
    )
    told = {day: " ".join(today(PLAN, date(2026, 3, day), OnTheDay((), (), ())).split()) for day in (7, 8, 13, 14)}
    assert [read in told[day] for day in (7, 8, 13, 14)] == [False, True, True, False]
    sizes = json.loads(today_as_json(PLAN, date(2026, 3, 25), OnTheDay((), (), ())))["measure"]
    assert sizes == [{
        "step": B + "glass-screen/measure", "what": [], "ready_for": None, "expected": None,
        "before": B + "glass-screen/fit",
    }]  # fmt: skip


def test_air_in_which_something_dries_and_that_nobody_has_read_is_told_on_the_day_it_is() -> None:
    coat = PLAN.step(B + "joint-compound/tape")
    runs = UnderWay(coat.id, coat.ready[0].purpose, 0.5, coat.ready[0].at, 8.0, 0, None)
    unread = replace(PLAN, as_of=t("11 March 00:00"), under_way=(runs,))
    for plan, there in ((unread, True), (replace(unread, under_way=(replace(runs, read=3),)), False)):
        told = today(plan, date(2026, 3, 11), OnTheDay((), (), ()))
        assert (f"air of Family bathroom, not read since: {coat.title}" in " ".join(told.split())) is there
        assert "not read since" not in today(plan, date(2026, 3, 12), OnTheDay((), (), ()))


def test_the_week_is_five_working_days_and_what_comes_up() -> None:
    text = week(PLAN, MONDAY, visits())
    fits(text, 80)
    same_as_golden("on-site-week.txt", text)


def test_a_week_with_holidays_still_has_five_working_days() -> None:
    days = json.loads(week_as_json(PLAN, date(2026, 4, 2), ()))["days"]
    assert [one["day"] for one in days if one["closed"] is None] == [
        "2026-04-02", "2026-04-07", "2026-04-08", "2026-04-09", "2026-04-10",
    ]  # fmt: skip
    assert [one["closed"] for one in days if one["closed"]] == ["Good Friday", "Easter Monday"]


def test_the_sheet_for_the_door_is_large_and_short() -> None:
    text = sign(PLAN, MONDAY, NOTICE)
    fits(text, 40)
    same_as_golden("on-site-sign.txt", text)


YES = May(t("23 March 09:00"), True, until=t("23 March 11:30"), moves=B + "sealant/joints")
NO = May(
    t("21 March 09:00"),
    False,
    again=t("23 March 08:00"),
    reasons=(
        Reason("Floor tiled: ready for grout no sooner", t("21 March 21:00"), B + "floor-tile/lay", STANDS.where),
        Reason("you do not work on it then", t("23 March 08:00")),
    ),
)


@pytest.mark.parametrize(("name", "answer"), [("yes", YES), ("no", NO)])
def test_may_says_yes_or_no_first(name: str, answer: May) -> None:
    text = may(PLAN, "Grouted", answer)
    fits(text, 80)
    assert text.startswith(f"{name.capitalize()}: ")
    same_as_golden(f"on-site-may-{name}.txt", text)


def test_json_says_the_same_with_full_times() -> None:
    told = json.loads(today_as_json(PLAN, MONDAY, found()))
    assert (told["version"], told["kind"], told["day"]) == (1, "today", "2026-03-16")
    assert told["last_starts"][0]["last"] == "2026-03-16T08:33:00-03:00"
    assert told["last_starts"][0]["otherwise"]["at"] == "2026-03-18T09:00:00-03:00"
    assert [one["state"] for one in told["surfaces"] if one["surface"] == "dry walls"] == ["work", "dries"]
    assert told["calls"][1]["unsure"] == [
        {"id": B + "wetroom-membrane/read", "why": "has to pass first"}, {"id": "glass", "why": "not ordered yet"},
    ]  # fmt: skip
    assert told["waiting_hours"][1]["could"][0] == {
        "step": B + "wall-tile/set", "from": "2026-03-16T13:00:00-03:00", "until": "2026-03-16T16:00:00-03:00",
        "whole": False,
    }  # fmt: skip
    no = json.loads(may_as_json(PLAN, "grout", B + "grout/fill", NO))
    assert (no["may"], no["again"]) == (False, "2026-03-23T08:00:00-03:00")
    assert no["reasons"][0]["by"] == B + "floor-tile/lay"
    door = json.loads(sign_as_json(PLAN, MONDAY, NOTICE))
    assert door["rooms"][0]["off"] == [{"service": "house water", "hours": "08:00 to 08:30"}]


def test_a_surface_closed_twice_in_a_day_stands_once_on_the_sheet_with_both_reasons() -> None:
    first = next(one for one in PLAN.closed if one.step == B + "wetroom-membrane/fill" and one.surface == "floor")
    until = (t("16 March 15:15"), t("16 March 19:29"))
    work = replace(first, how="sets", grade="keep off", start=t("16 March 14:39"), end=until[0], why="until laid")
    layer = replace(work, start=until[0], end=until[1], step=B + "floor-tile/lay")
    softer = replace(work, grade="leave", end=t("16 March 17:00"), step=B + "sealant/joints")
    ready = replace(PLAN.step(layer.step).ready[0], at=until[1], working="4 h at 21 C")
    steps = tuple(replace(one, ready=(ready,)) if one.id == layer.step else one for one in PLAN.steps)
    plan = replace(PLAN, steps=steps, closed=(work, layer, softer))
    (shut,) = json.loads(sign_as_json(plan, MONDAY, NOTICE))["rooms"][0]["closed"]
    assert (shut["asks"], shut["surfaces"], shut["until"]) == ("keep off", "floor", "Monday 16 March 19:29")
    assert [why.split(" (")[0] for why in shut["why"]] == ["work until 15:15", "sets until 19:29"]
    assert sign(plan, MONDAY, NOTICE).count("KEEP OFF: FLOOR") == 1
