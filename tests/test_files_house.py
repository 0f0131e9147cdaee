"""What a house asks for and what has to be decided, from the words of the files to the hours of the plan."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from drawn_jobs import BEFORE, cut_after
from random_jobs import FURTHER, Further, RandomJob
from tiny_jobs import moment

from sequencer.files import read_job
from sequencer.files.nights_needed import nights_needed
from sequencer.plan import Plan
from sequencer.planning import NoOrderFits, plan_for, plan_of
from sequencer.terms.facts_of_things import not_yet_decided, not_yet_here
from sequencer.terms.job import Job
from sequencer.terms.minute import minute_of
from sequencer.terms.place import Faulty
from sequencer.views.as_json import plan_as_json
from sequencer.views.foot import foot_of

TODAY = date(2026, 3, 2)
"""A Monday, and the day the job starts."""

RECIPE = """format: 1
recipe: drain
title: A drain moved and tested
sources: {c: "common practice, no source"}
steps:
  open: {hours: 2 h (c), works on: [floor]KEYS}
  fill: {hours: 1 h (c)FILL}
  close: {hours: 2 h (c), works on: [floor]CLOSE}
"""

JOB = """format: 1
job: tiny
place: {zone: UTC}
start: Mon 2 March 2026
MOREpeople: {you: {hours: 08:00-16:00}, plumber: {days: Wed}}
rooms:
  bath:
    recipes:
      drain:
"""


def folder(tmp_path: Path, more: str = "", keys: str = "", fill: str = "", close: str = "") -> Path:
    """A job of one recipe. `more`: lines of the job; `keys`, `fill`, `close`: what else its three steps say."""
    (tmp_path / "recipes").mkdir()
    recipe = RECIPE.replace("KEYS", keys).replace("FILL", fill).replace("CLOSE", close)
    (tmp_path / "recipes" / "drain.yaml").write_text(recipe, encoding="utf-8")
    (tmp_path / "job.yaml").write_text(JOB.replace("MORE", more), encoding="utf-8")
    return tmp_path


def starts(plan: Plan) -> dict[str, str]:
    """The start of every step, in words."""
    told = {step.step: datetime.fromtimestamp(step.start * 60, UTC) for step in plan.steps}
    return {name: f"{at:%a} {at:%d %H:%M}" for name, at in told.items()}


def planned(tmp_path: Path, **said: str) -> dict[str, str]:
    return starts(plan_for(folder(tmp_path, **said), TODAY))


def job_of(tmp_path: Path, **said: str) -> Job:
    return read_job(folder(tmp_path, **said), TODAY)


def test_without_any_of_it_one_step_follows_the_other(tmp_path: Path) -> None:
    assert planned(tmp_path) == {"open": "Mon 02 08:00", "fill": "Mon 02 10:00", "close": "Mon 02 11:00"}


def test_a_house_is_open_at_the_hours_of_the_week_that_are_said(tmp_path: Path) -> None:
    access = "house: {access: [Mon 10:00-12:00, Tue to Fri 13:00-17:00, Tue 12:00-13:00]}\n"
    assert planned(tmp_path, more=access) == {"open": "Mon 02 10:00", "fill": "Tue 03 12:00", "close": "Tue 03 13:00"}


def test_hours_that_touch_are_one_span(tmp_path: Path) -> None:
    house = job_of(tmp_path, more="house: {access: [Mon 10:00-12:00, Mon 12:00-13:00, Mon 14:00-15:00]}\n").house
    assert house.access is not None
    assert house.access[:2] == ((moment("Mon 10"), moment("Mon 13")), (moment("Mon 14"), moment("Mon 15")))
    assert house.access_words == "Mon 10:00-12:00, Mon 12:00-13:00 and Mon 14:00-15:00"


def test_what_is_heavy_waits_for_the_lift(tmp_path: Path) -> None:
    lift = "house: {lift: [Wed 4 March 9 am-11 am, 2026-03-03 08:00-09:30]}\n"
    assert planned(tmp_path, more=lift, keys=", lift: yes")["open"] == "Wed 04 09:00"


def test_fumes_begin_where_they_can_be_gone_in_time(tmp_path: Path) -> None:
    said = {"more": "house: {fumes: gone by 13:00}\n", "fill": ", fumes: for 4 h (c)"}
    assert planned(tmp_path, **said) == {"open": "Mon 02 08:00", "fill": "Tue 03 08:00", "close": "Tue 03 13:00"}


def test_a_toilet_that_is_away_for_one_night_is_back_before_the_second(tmp_path: Path) -> None:
    said = {"keys": ", toilet: off", "close": ", by: plumber, toilet: back"}
    one = "house: {only toilet: 'back every evening, 1 nights without at most'}\n"
    assert planned(tmp_path, more=one, **said)["open"] == "Tue 03 08:00"


def test_where_it_must_be_back_every_evening_no_order_may_fit(tmp_path: Path) -> None:
    said = {"keys": ", toilet: off", "close": ", by: plumber, toilet: back, after: fill ready for wait"}
    said["fill"] = ', ready for: {wait: "after 24 h, fixed (c)"}'
    with pytest.raises(NoOrderFits) as none:
        plan_for(folder(tmp_path, more="house: {only toilet: back every evening}\n", **said), TODAY)
    assert any("without a toilet instead of 0" in sentence for sentence in none.value.sentences)


def test_a_toilet_set_back_over_a_weekend_costs_the_work_of_setting_it(tmp_path: Path) -> None:
    house = "house: {only toilet: 'back every evening, 2 nights without at most'}\n"
    made = folder(
        tmp_path, more=house.replace("}", ", access: [Fri 08:00-16:00, Mon to Thu 13:00-16:00]}"),
        keys=", toilet: off for the day", close=", by: plumber, toilet: back",
    )  # fmt: skip
    job = made / "job.yaml"
    back = "      back: {recipe: toilet-reset, after: drain open, before: drain fill}\n"
    more = f"    areas: {{floor: 4 m2}}\n    recipes:\n{back}"
    text = job.read_text(encoding="utf-8").replace("    recipes:\n", more)
    job.write_text(text.replace("Mon 2 March", "Fri 6 March"), encoding="utf-8")
    plan = plan_for(made, date(2026, 3, 6))
    assert {step.id.partition("/")[2]: starts(plan)[step.step] for step in plan.steps} == {
        "drain/open": "Fri 06 08:00", "back/set": "Fri 06 10:00",
        "back/off": "Mon 09 13:00", "drain/fill": "Mon 09 13:30", "drain/close": "Wed 11 13:00",
    }  # fmt: skip
    absences = read_job(made, date(2026, 3, 6)).house.absences
    assert {one.off: one.nights for one in absences} == {"bath/drain/open": 0, "bath/back/off": 2}


def test_a_test_in_an_empty_house_is_not_left_over_a_weekend(tmp_path: Path) -> None:
    said = {"fill": ', look in: every 18 h (c), ready for: {close: "after 110 h, fixed (c)"}'}
    with pytest.raises(NoOrderFits) as none:
        plan_for(folder(tmp_path, **said), TODAY)
    assert any("left alone for" in sentence for sentence in none.value.sentences)


def test_who_lives_there_looks_in(tmp_path: Path) -> None:
    said = {"fill": ', look in: every 18 h (c), ready for: {close: "after 110 h, fixed (c)"}'}
    lived_in = planned(tmp_path, more="house: {people live here: yes}\n", **said)
    assert lived_in == {"open": "Mon 02 08:00", "fill": "Mon 02 10:00", "close": "Mon 09 08:00"}


DECISIONS = """decisions:
  height: {before: drain fill, ask by: 2 working days}
  tile: {by: you, before: drain close, decided: 20 February}
orders:
  grate: {for: drain close, lead: 1 working day, once decided: height, check: 30 min}
  pipe: {for: drain fill, lead: 3 working days}
must haves: {drain open: pipe}
"""


def test_steps_wait_for_decisions_for_orders_that_hang_on_them_and_for_must_haves(tmp_path: Path) -> None:
    assert planned(tmp_path, more=DECISIONS) == {
        "open": "Fri 06 08:00", "fill": "Fri 06 10:00", "close": "Fri 06 11:00",
    }  # fmt: skip
    job = read_job(tmp_path, TODAY)
    height, tile = job.decisions
    assert (height.by, height.stands, height.decided) == ("client", moment("Thu 0"), False)
    assert (tile.by, tile.stands, tile.decided) == ("you", minute_of(datetime(2026, 2, 21, tzinfo=UTC)), True)
    grate, pipe = job.orders
    assert (grate.arrives, grate.check, grate.decision) == (moment("Fri 0"), 30, "height")
    assert pipe.for_steps == ("bath/drain/fill", "bath/drain/open")


def test_a_plan_says_what_to_decide_and_by_when_to_ask(tmp_path: Path) -> None:
    plan = plan_for(folder(tmp_path, more=DECISIONS), TODAY)
    told = json.loads(plan_as_json(plan))["decisions"]
    assert [(one["id"], one["by"], one["ask_by"], one["state"]) for one in told] == [
        ("height", "client", "2026-03-03T00:00:00+00:00", "to decide"), ("tile", "you", None, "decided"),
    ]  # fmt: skip
    sections = {section.name: section.texts for section in foot_of(plan)}
    assert [text.partition(",")[0] for text in sections["what to decide"]] == ["height"]


def test_a_client_is_there_to_say_yes_every_day(tmp_path: Path) -> None:
    job = job_of(tmp_path, fill=", by: client, hold: the damage found")
    assert job.trades["client"].days[0].spans == ((moment("Mon 8"), moment("Mon 20")),)
    assert len(job.trades["client"].days) == 280


def test_what_is_still_to_be_decided_is_counted_on_from_now(tmp_path: Path) -> None:
    later = replace(job_of(tmp_path, more=DECISIONS), now=moment("Wed 10"))
    height, tile = not_yet_decided(later).decisions
    assert height.stands == moment("Sat 0")
    assert tile.stands < later.start
    grate = next(order for order in not_yet_here(not_yet_decided(later), frozenset()).orders if order.name == "grate")
    assert grate.arrives == moment("Tue2 0")


def test_an_absence_that_the_work_in_it_makes_too_long_is_told_at_once(tmp_path: Path) -> None:
    made = folder(
        tmp_path, more="house: {only toilet: 'back every evening, 1 nights without at most'}\n",
        keys=", toilet: off", close=", toilet: back",
    )  # fmt: skip
    recipe = made / "recipes" / "drain.yaml"
    recipe.write_text(recipe.read_text(encoding="utf-8").replace("fill: {hours: 1 h", "fill: {hours: 25 h"))
    with pytest.raises(Faulty, match="lies work for 3 nights at least; allow as many"):
        read_job(made, TODAY)


@pytest.mark.parametrize("seed", [seed for seed in range(FURTHER, FURTHER + 140) if "toilet" in Further(seed).asks])
def test_no_plan_does_with_fewer_nights_than_the_work_needs(seed: int, tmp_path: Path) -> None:
    drawn = RandomJob(seed)
    drawn.write(tmp_path)
    text = (tmp_path / "job.yaml").read_text(encoding="utf-8")
    allowed = re.sub('"back every evening[^"]*"', '"back every evening, 99 nights without at most"', text)
    (tmp_path / "job.yaml").write_text(allowed, encoding="utf-8")
    try:
        job = cut_after(read_job(tmp_path, BEFORE), drawn.days)
        plan = plan_of(job)
    except (Faulty, NoOrderFits):
        return
    for absence in job.house.absences:
        away = (plan.step(absence.off).end, plan.step(absence.back).end)
        nights = sum(start < away[1] and away[0] < end for start, end in job.house.nights)
        inside = [step for step in job.steps_in("bath") if away[0] <= plan.step(step.id).start]
        between = [step for step in inside if plan.step(step.id).end <= away[1] and step.id != absence.back]
        assert nights_needed(job, between) <= nights
