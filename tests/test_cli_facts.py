"""Facts from the command line: written at once, once, where they belong; then what moves."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from demo_job import demo
from tiny_folder import folder

from sequencer.cli import DONE, NO_ORDER_FITS, WRONG, main
from sequencer.cli.meant import meant
from sequencer.cli.planned import Refused

TUESDAY = ("--today", "2026-03-03")
MORE = """orders:
  mosaic: {for: bed finish, ordered: 25 February, lead: 2 working days}
people:
  plumber: {days: Tue and Thu}
"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """A bed of mortar: frame Mon 8-12, lay Mon 12-14, finish Tue 14-15 at 20 C."""
    return folder(tmp_path, "20 C 50 %", more=MORE)


def run(site: Path, *words: str) -> int:
    return main([*words, "--job", str(site)])


def book(site: Path) -> list[str]:
    """The words of the lines of the book."""
    path = site / "site-book.txt"
    return [line.split(": ", 1)[1] for line in path.read_text().splitlines()[1:]] if path.exists() else []


def test_a_fact_is_written_and_what_moves_is_told(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(site, "done", "bed", "lay", "--at", "Mon 16:00", *TUESDAY) == DONE
    told = capsys.readouterr()
    assert told.err.startswith("sequencer: written: 1. Mon 2 March 2026 16:00, written Tue 3 March 2026 ")
    assert told.out == (
        "HAND OVER\n moves from Tue 3 March 15:00 to Wed 4 March 09:00\n\n"
        "WHAT MOVES\n finish (you): from Tue 3 March 14:00 to Wed 4 March 08:00\n no steps stay as they were\n\n"
        "ORDERS\n mosaic: needed Wed 4 March 08:00 instead of Tue 3 March 14:00\n\n"
        "ASSUMED\n mosaic: should be on site, not told as delivered; counted on from now\n"
    )
    assert book(site) == ["done bath/bed/lay"]


def test_the_same_told_again_stands_already_and_is_not_written(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for _ in range(2):
        assert run(site, "done", "frame", "--at", "Mon 12:00", *TUESDAY) == DONE
    assert "stands already: 1. Mon 2 March 2026 12:00" in capsys.readouterr().err
    assert run(site, "done", "frame", "--at", "Mon 11:00", *TUESDAY) == DONE
    assert "it takes the place of fact 1" in capsys.readouterr().err
    assert book(site) == ["done bath/bed/frame", "done bath/bed/frame"]


def test_undo_restores_the_plan_byte_for_byte(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = ("plan", str(site), "--json", *TUESDAY)
    assert main(plan) == DONE
    before = capsys.readouterr().out
    assert run(site, "done", "lay", "--at", "Mon 16:00", *TUESDAY) == DONE
    assert main(plan) == DONE
    assert capsys.readouterr().out != before
    assert run(site, "undo", *TUESDAY) == DONE
    told = capsys.readouterr()
    assert "undone: 1. Mon 2 March 2026 16:00" in told.err
    assert told.out.startswith("HAND OVER\n moves from Wed 4 March 09:00 to Tue 3 March 15:00\n")
    assert main(plan) == DONE
    assert capsys.readouterr().out == before


def test_undo_helps_where_a_fact_is_about_nothing_any_more(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    line = "1. Mon 2 March 2026 16:00, written Mon 2 March 2026 16:00: done bath/bed/laid\n"
    (site / "site-book.txt").write_text(f"format: 1\n{line}")
    assert run(site, "undo", *TUESDAY) == DONE
    assert capsys.readouterr().out.startswith("HAND OVER\n stays ")
    assert book(site)[1] == "undo 1"


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("measured", "17 C", "65 %"), "measured bath, 17 C 65 %"),
        (("measured", "bath, 17 C 65 %"), "measured bath, 17 C 65 %"),
        (("measured", "bath", "17.5 C", "62 %"), "measured bath, 17.5 C 62 %"),
        (("measured", "lay,", "level", "50", "mm"), "measured bath/bed/lay, level 50 mm"),
        (("measured", "lay", "ready", "for", "finish"), "measured bath/bed/lay, ready for finish"),
        (("ready", "bed", "lay", "for", "finish"), "ready bath/bed/lay, for finish"),
        (("ready", "lay,", "for", "finish"), "ready bath/bed/lay, for finish"),
        (("began", "bath/bed/frame"), "began bath/bed/frame"),
        (("ordered", "mosaic,", "on", "site", "by", "Fri"), "ordered mosaic, on site by Fri 6 March 2026"),
        (("delivered", "mos"), "delivered mosaic"),
        (("booked", "finish,", "Thu", "8:00"), "booked bath/bed/finish, Thu 5 March 2026 08:00"),
        (("asked", "finish"), "asked bath/bed/finish"),
        (("told", "client", "hand-over", "Friday"), "told client, hand-over Friday"),
        (("told", "plumber,", "come Thu"), "told plumber, come Thu"),
        (("note", "the", "key,", "under", "the", "mat"), "note the key, under the mat"),
        (("note", "bed", "lay,", "lot", "44-17"), "note bath/bed/lay, lot 44-17"),
    ],
)
def test_words_are_written_in_full(
    site: Path, words: tuple[str, ...], line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Before anything is planned."""
    monkeypatch.setattr("sequencer.cli.commands.record.tell_what_now", lambda *_: DONE)
    assert run(site, *words, "--at", "Mon 16:00", *TUESDAY) == DONE
    assert book(site) == [line]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("done", "bed"), '"bed" names several steps; write one of: bath/bed/frame, bath/bed/lay, bath/bed/finish'),
        (("done", "tiles"), 'nothing here is called "tiles"; write one of: bath/bed/frame, bath/bed/lay, '),
        (("passed", "lay"), '"lay" is no inspection; write done lay'),
        (("done", "fraem"), 'nothing here is called "fraem"; write bath/bed/frame'),
        (("measured", "bth, 17 C"), 'nothing here is called "bth"; write bath'),
        (("ready", "lay", "for", "tile"), '"bath/bed/lay" does not wait to be ready for "tile"; write finish'),
        (("ready", "lay"), "it does not say what the layer is ready for"),
        (("delivered", "marble"), 'no order of this job is called "marble"; write mosaic'),
        (("told", "neighbor"), 'nobody under people is called "neighbor"; write one of: plumber, you, client'),
        (("done", "lay", "--at", "5 March 16:00"), "this lies in the future; a fact has happened"),
        (("done", "lay", "--at", "teatime"), '"teatime" is no moment; write Tue 16:30'),
        (("booked", "finish"), "it does not say the day and the hour of the visit"),
        (("measured", "lay, wet"), '"wet" is no reading'),
        (("undo", "7"), "no fact 7 stands in the site book"),
    ],
)
def test_what_is_not_clear_is_refused_and_nothing_is_written(
    site: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], says: str
) -> None:
    assert run(site, *words, *TUESDAY) == WRONG
    told = capsys.readouterr().err
    assert says in " ".join(told.split())
    assert max(map(len, told.splitlines())) <= 80
    assert book(site) == []


def test_with_n_nothing_is_written_and_what_would_move_is_told(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(site, "done", "lay", "--at", "Mon 16:00", "-n", *TUESDAY) == DONE
    told = capsys.readouterr()
    assert "would write: 1. Mon 2 March 2026 16:00" in told.err
    assert "moves from Tue 3 March 15:00 to Wed 4 March 09:00" in told.out
    assert book(site) == []


def test_what_moves_as_json(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(site, "done", "lay", "--at", "Mon 16:00", "--json", *TUESDAY) == DONE
    told = json.loads(capsys.readouterr().out)
    assert told["kind"] == "what now"
    assert told["facts"][0]["about"] == "bath/bed/lay"
    assert (told["was"], told["finish"]) == ("2026-03-03T15:00:00+00:00", "2026-03-04T09:00:00+00:00")
    assert [one["id"] for one in told["moved"]] == ["bath/bed/finish"]


def test_a_fact_after_which_nothing_fits_stands_all_the_same(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ("ordered", "mosaic,", "on site by 1 March 2027")
    assert run(site, *words, "--at", "Mon 7:00", *TUESDAY) == NO_ORDER_FITS
    assert "No order of work" in capsys.readouterr().err
    assert book(site) == ["ordered mosaic, on site by Mon 1 March 2027"]


def test_a_torn_tail_is_told_with_the_plan(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(site, "done", "frame", "--at", "Mon 12:00", *TUESDAY)
    with (site / "site-book.txt").open("a") as stream:
        stream.write("2. Mon 2 Ma")
    capsys.readouterr()
    assert main(["plan", str(site), "--json", *TUESDAY]) == DONE
    assumed = json.loads(capsys.readouterr().out)["assumed"]
    assert "site-book.txt:3:1: this line was cut short while it was written: set aside" in assumed


def test_what_was_begun_too_soon_is_told(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(site, "done", "lay", "--at", "Mon 14:00", *TUESDAY)
    run(site, "began", "finish", "--at", "8:00", *TUESDAY)
    capsys.readouterr()
    assert main(["plan", str(site), "--json", *TUESDAY]) == DONE
    against = json.loads(capsys.readouterr().out)["against_recipes"]
    assert against == ["finish (bath/bed/finish) was begun 6 h before lay (bath/bed/lay) was ready for finish"]


def test_why_goes_back_to_what_has_happened_and_no_further(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(site, "done", "lay", "--at", "Mon 16:00", *TUESDAY)
    capsys.readouterr()
    assert run(site, "why", "--plain", *TUESDAY) == DONE
    told = capsys.readouterr().out
    assert "lay sets" in told
    assert "frame" not in told
    assert "Today, Tue 3 March." in told


def test_a_job_file_of_another_name_has_a_book_of_its_own(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (site / "loft.yaml").write_text((site / "job.yaml").read_text())
    assert run(site / "loft.yaml", "done", "lay", "--at", "Mon 16:00", *TUESDAY) == DONE
    assert book(site) == []
    line = (site / "loft-site-book.txt").read_text().splitlines()[1]
    assert line.endswith(": done bath/bed/lay")
    (site / "loft-site-book.txt").write_text("format: 1\nnonsense\n")
    assert main(["check", str(site / "loft.yaml"), *TUESDAY]) == WRONG
    assert "loft-site-book.txt:2:1: this is no line of a site book" in capsys.readouterr().out


def test_a_layer_that_cannot_be_followed_in_time_any_more_is_followed_late_and_what_to_do_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Ready after 24 h, to be followed within 30 h; told to be done on Friday, and on Saturday nobody works."""
    lay = "    if too late: Score it and lay it again\n"
    site = folder(tmp_path, "20 C 50 %", wait="after 24 h, within 30 h, fixed", lay=lay)
    assert run(site, "done", "lay", "--at", "Fri 6 March 12:00", "--today", "2026-03-07") == DONE
    told = capsys.readouterr().out
    assert "to Mon 9 March 08:00\n" in told
    assert "AGAINST THE RECIPES\n finish (bath/bed/finish) comes 38 h later than lay" in told
    assert told.index("Score it and lay it again") < told.index("undo strikes it") < told.index("WHAT MOVES")


def test_where_nothing_else_fits_what_lies_behind_is_followed_late(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whoever has to follow within two days was not asked, and needs five working days."""
    more = "people:\n  plumber: {notice: 5 working days}\n"
    room = "    recipes:\n      bed: {change: {finish: {by: plumber}}}\n"
    site = folder(tmp_path, "20 C 50 %", wait="after 24 h, within 48 h, fixed", more=more)
    text = (site / "job.yaml").read_text().replace("    recipes:\n      bed:\n", room)
    (site / "job.yaml").write_text(text)
    assert run(site, "done", "lay", "--at", "Mon 16:00", *TUESDAY) == DONE
    told = " ".join(capsys.readouterr().out.split())
    assert "to Tue 10 March 09:00 " in told
    assert "AGAINST THE RECIPES finish (bath/bed/finish) comes 5 days later than lay (bath/bed/lay) can be" in told


@pytest.mark.parametrize(
    ("kind", "words", "id"),
    [
        ("done", "cover", "protection/cover"),
        ("done", "barrier", "dust-barrier/barrier"),
        ("began", "cables", "rough-electrical/cables"),
        ("began", "strip", "strip-out/strip"),
        ("began", "board ceiling", "board/ceiling"),
        ("done", "strip out look", "strip-out/look"),
        ("passed", "survey", "hazard-hold/survey"),
    ],
)
def test_a_steps_own_name_wins_over_words_inside_titles(kind: str, words: str, id: str) -> None:
    assert meant(demo(), kind, words) == f"{kind} bathroom/{id}"


@pytest.mark.parametrize(
    ("kind", "words", "says"),
    [
        ("done", "survey", "the survey is an inspection; write passed survey, or failed survey"),
        ("passed", "grout", '"grout" is no inspection; write done grout'),
        ("done", "gruot flor", 'nothing here is called "gruot flor"; write one of: bathroom/grout/'),
        ("late", "plumbr until Thu", 'nobody under people is called "plumbr"; write plumber'),
        ("ordered", "florr tile", 'no order of this job is called "florr tile"; write floor tile'),
        ("measured", "bathrom, 17 C", 'nothing here is called "bathrom"; write bathroom'),
        ("done", "sauna", 'nothing here is called "sauna"; plan names them all'),
    ],
)
def test_what_is_nearest_to_words_that_name_nothing_is_offered(kind: str, words: str, says: str) -> None:
    with pytest.raises(Refused, match=re.escape(says)):
        meant(demo(), kind, words)


def test_a_beginning_that_was_only_worked_out_speaks_against_no_recipe(
    site: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(site, "done", "frame", "--at", "Mon 12:00", *TUESDAY) == DONE
    assert run(site, "done", "lay", "--at", "Mon 12:15", *TUESDAY) == DONE
    assert "AGAINST THE RECIPES" not in capsys.readouterr().out
    assert run(site, "began", "lay", "--at", "Mon 11:00", *TUESDAY) == DONE
    assert "was begun 1 h before frame" in " ".join(capsys.readouterr().out.split())
