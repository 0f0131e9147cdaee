"""A recipe shown in a given air, from a given hour: what it says, what it tabulates, what it draws."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from tiny_folder import folder

from sequencer.air.hourly import hourly_air
from sequencer.answers.air_tables import HUMIDITIES, TEMPERATURES, curve, table
from sequencer.cli import main
from sequencer.files import read_recipe_library
from sequencer.files.moment import air_said, parse_moment
from sequencer.files.wrong import Wrong
from sequencer.terms.minute import DAY, HOUR, utc
from sequencer.waits.clock import wait_clock

MONDAY = date(2026, 3, 2)
RECIPE = "after 24 h, cement law, never under 12 h, within 4 d"


@pytest.fixture
def here(tmp_path: Path) -> Path:
    near = "    air: 10 to 32 C (c)\n"
    return folder(tmp_path, "20 C 50 %", wait=RECIPE, lay=near)


def shown(here: Path, capsys: pytest.CaptureFixture[str], *flags: str) -> str:
    said = ["recipes", "show", "bed", "--job", str(here), "--today", "2 March 2026", *flags]
    assert main(said) == 0
    return capsys.readouterr().out


def test_each_wait_is_shown_with_its_working_its_range_its_sources_and_its_moments(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """At 17 C the Arrhenius factor is 0.844 (computed): 24 h become 28 h 27 min; 0.15 in ln h is 0.78 to 1.28 times."""
    page = " ".join(shown(here, capsys, "--air", "17 C 65 %", "--from", "Tue 16:30").split())
    assert "in 17 C 65 %, if the first work ends Tue 3 March 16:30" in page
    assert "taken: one step after the other, Mon to Fri 08:00-16:00, no holidays; by the clock of UTC" in page
    assert "work: Wed 4 March 08:00 to 10:00" in page
    assert "ready for finish: Thu 5 March 14:27, after 28 h; from job to job 22 h to 36 h" in page
    assert "no later than Sun 8 March 10:00" in page
    assert "work: Thu 5 March 14:27 to 15:27" in page
    assert "24 h at 20 C; at 17 C here, 28 h" in page
    assert "goes as cement; known to hold at 5 to 40 C; source of the hours: common practice, no source" in page
    assert "by then it has 34 % of its 28-day strength, as concrete goes (EN 1992-1-1)" in page
    assert "40 kJ/mol: NIST hydration model default (seen)" in page
    assert "air while working: 10 to 32 C, kept here" in page
    assert "(c) common practice, no source" in page


def test_air_that_forbids_the_work_or_never_lets_it_set_is_said_in_capitals(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = " ".join(shown(here, capsys, "--air", "3 C 65 %").split())
    assert "air while working: 10 to 32 C, NOT IN THIS AIR" in page
    assert "ready for finish: NEVER in this air" in page
    assert "at 3 C here, never: too cold" in page


def test_without_an_air_the_assumption_is_said(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "in 18 C 60 % (assumed), if the first work ends Tue 3 March 16:30" in shown(
        here, capsys, "--from", "Tue 16:30"
    )


def test_the_air_may_differ_by_day_and_night(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """72 h need 94.5 h in days of 18 C and nights of 12 C (computed): a third of it is 31.5 h in the mean."""
    page = shown(here, capsys, "--air", "18 C 08:00-20:00, 12 C otherwise", "--from", "8 am", "--json")
    (wait,) = json.loads(page)["waits"]
    assert wait["hours"] == pytest.approx(31.5, abs=2.5)


def test_the_table_has_the_clocks_hours_in_steady_air(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = shown(here, capsys, "--air", "20 C 50 %", "--table")
    row = next(line.split() for line in page.splitlines() if line.split()[:1] == ["any"])
    assert row[1:] == ["58", "h", "43", "h", "32", "h", "24", "h", "18", "h", "14", "h"]
    wait = read_recipe_library(here)["bed"].steps[1].waits[0]
    assert [len(row) for row in table(wait)] == [len(TEMPERATURES)]
    film = read_recipe_library(here)["wetroom-membrane"].steps[0].waits[0]
    grid = table(film)
    assert len(grid) == len(HUMIDITIES)
    for row_of_hours in grid:
        known = [hours for hours in row_of_hours if hours is not None]
        assert known == sorted(known, reverse=True)


def test_the_curve_shows_the_colder_room_behind_and_the_warmer_ahead(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    recipe = read_recipe_library(here)["bed"]
    end = parse_moment("Tue 16:30", MONDAY)
    air = hourly_air(air_said("20 C 50 %", MONDAY), end, end + 30 * DAY)
    drawn = curve(wait_clock(recipe.steps[1].waits[0], air), end, 13)
    assert drawn.names == ("15 C 50 %", "20 C 50 %", "25 C 50 %")
    assert drawn.shares[0] == (0.0, 0.0, 0.0)
    assert drawn.shares[-1] == (1.0, 1.0, 1.0)
    for colder, this, warmer in drawn.shares:
        assert colder <= this <= warmer
    page = shown(here, capsys, "--air", "20 C 50 %", "--curve").splitlines()
    top = next(at for at, line in enumerate(page) if "progress:" in line)
    assert page[top + 2].split()[:3] == ["0", "h", "*"]
    assert page[top + 14].rstrip().endswith("*")


def test_json_has_the_same_moments_by_the_same_clock(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = json.loads(shown(here, capsys, "--air", "20 C 50 %", "--from", "Tue 16:30", "--json"))
    assert told["kind"] == "recipe in air"
    assert told["work_ends"] == "2026-03-03T16:30:00+00:00"
    (wait,) = told["waits"]
    ready = "2026-03-05T10:00:00+00:00"
    assert (wait["step"], wait["for"], wait["ready"], wait["hours"]) == ("lay", "finish", ready, 24.0)
    assert told["steps"][2] == {"step": "finish", "start": ready, "end": "2026-03-05T11:00:00+00:00", "too_late": None}
    assert told["limits"] == [{"step": "lay", "limit": "10 to 32 C", "kind": "while working", "kept": True}]


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("Tue 16:30", "2026-03-03 16:30"),
        ("Monday 4 pm", "2026-03-02 16:00"),
        ("16:30", "2026-03-02 16:30"),
        ("5 March 8 am", "2026-03-05 08:00"),
        ("2027-01-04 08:00", "2027-01-04 08:00"),
    ],
)
def test_a_moment_is_the_first_such_from_today_on(text: str, moment: str) -> None:
    assert f"{utc(parse_moment(text, MONDAY)):%Y-%m-%d %H:%M}" == moment


@pytest.mark.parametrize("text", ["soon", "Tue", "Tue 25:00", "31 February 8 am", "Whensday 08:00"])
def test_what_is_no_moment_is_refused(text: str) -> None:
    with pytest.raises(Wrong):
        parse_moment(text, MONDAY)


@pytest.mark.parametrize("flags", [("--air", "warm"), ("--from", "soon")])
def test_a_word_that_is_none_ends_with_2_and_what_to_write(
    here: Path, capsys: pytest.CaptureFixture[str], flags: tuple[str, str]
) -> None:
    assert main(["recipes", "show", "bed", "--job", str(here), *flags]) == 2
    assert "; write " in capsys.readouterr().err


def test_what_nobody_can_do_in_time_is_said_with_what_warmth_has_to_do_with_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Laid by 10:00 it is ready at 19:38 and too late at 22:38."""
    wait = "after 12 h at 20 C, within 3 h of ready, cement law"
    here = folder(tmp_path, "20 C 50 %", wait=wait)
    page = " ".join(shown(here, capsys, "--air", "24 C", "--from", "Tue 8 am").split())
    assert "no later than Tue 3 March 22:38: NOBODY CAN, ready and too late again while nobody works" in page
    page = " ".join(shown(here, capsys, "--air", "24 C", "--from", "Tue 2 pm").split())
    assert "NOBODY CAN, in this air it is ready after 9 h 38 min and too late after 13 h, while nobody works; " in page


def test_where_nobody_can_follow_the_sheet_says_until_when_to_end_the_work_and_what_is_too_late(
    here: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Filled by 16:30 it is polished from 17:00 to 17:30 at the latest; people leave at 16:00, and polishing takes
    30 min: it has to be ready by 15:30, half an hour after the fill."""
    asked = ["recipes", "show", "grout", "--job", str(here), "--today", "2 March 2026", "--air", "17 C 65 %"]
    assert main([*asked, "--from", "Tue 16:30"]) == 0
    page = " ".join(capsys.readouterr().out.split())
    assert "no later than Tue 3 March 17:30: NOBODY CAN" in page
    assert "INSTEAD: end this work by Tue 3 March 15:00" in page
    assert "work: Wed 4 March 08:00 to 08:30: TOO LATE, it had to begin by Tue 3 March 17:30" in page
    assert main([*asked, "--from", "Tue 15:00"]) == 0
    page = capsys.readouterr().out
    assert "work: Tue 3 March 15:30 to 16:00" in page
    assert "NOBODY CAN" not in page and "TOO LATE" not in page


def test_work_that_cannot_end_sooner_is_told_when_to_end_later(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Ready 12 h or 15 h after its end, for 3 h: to be met at 08:00 it ends at 17:00, too late, or at 14:00."""
    here = folder(tmp_path, "20 C 50 %", wait="after 12 h, within 3 h of ready, fixed")
    page = " ".join(shown(here, capsys, "--from", "Tue 8 am").split())
    assert "NOBODY CAN" in page and "INSTEAD" not in page
    here = folder(tmp_path, "20 C 50 %", wait="after 15 h, within 3 h of ready, fixed")
    page = " ".join(shown(here, capsys, "--from", "Tue 8 am").split())
    assert "INSTEAD: end this work at Tue 3 March 14:00, no sooner" in page


def test_the_sheet_says_what_from_job_to_job_means(here: Path, capsys: pytest.CaptureFixture[str]) -> None:
    page = " ".join(shown(here, capsys, "--air", "20 C 50 %").split())
    assert "from job to job: nine jobs in ten lie between" in page


def test_the_night_in_which_the_clocks_change_counts_as_it_is(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """In Halifax the clocks go forward on 8 March 2026: 72 h from Friday 12:00 end on Monday at 13:00."""
    here = folder(tmp_path, "20 C 50 %", wait="after 72 h, fixed")
    text = (here / "job.yaml").read_text().replace("zone: UTC", "zone: America/Halifax")
    (here / "job.yaml").write_text(text)
    page = " ".join(shown(here, capsys, "--from", "Thu 16:00").split())
    assert "by the clock of America/Halifax" in page
    assert "work: Fri 6 March 08:00 to 10:00" in page
    assert "ready for finish: Mon 9 March 11:00, after 72 h" in page


def test_without_a_job_the_clock_is_one_that_never_changes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recipes", "show", "grout-walls", "--air", "20 C 50 %", "--job", str(tmp_path)]) == 0
    page = " ".join(capsys.readouterr().out.split())
    assert "by a clock that never changes, no job here says where" in page
    assert "what water the layers give off is not counted" in page


def test_air_on_the_command_line_holds_before_and_long_after() -> None:
    said = air_said("20 C 50 %", MONDAY)
    start = parse_moment("8 am", MONDAY)
    assert min(each.start for each in said.statements) <= start - 2 * DAY
    assert max(each.end for each in said.statements) >= start + 2 * 365 * DAY + HOUR
