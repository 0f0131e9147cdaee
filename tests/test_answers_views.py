"""Why not sooner as it is read: the page on the demo letter by letter, its twin in sentences, its JSON, the shell."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
import tiny_jobs
from golden_text import same_as_golden
from test_answers_why import job
from tiny_jobs import ident, room, step, trade, wait

from sequencer.answers.why import WhyNot, why
from sequencer.cli import main
from sequencer.files import read_job
from sequencer.network.model import HAND_OVER
from sequencer.plan import Plan
from sequencer.planning import plan_of
from sequencer.terms.minute import DAY
from sequencer.views.why import why_as_json, why_page, why_plain
from sequencer.views.why_words import is_a_night

ROOT = Path(__file__).parent.parent
Told = tuple[Plan, WhyNot]


@pytest.fixture(scope="module")
def demo() -> Told:
    """The demo's plan as of a fixed day, and why it is not sooner, the three longest causes tried."""
    of = read_job(ROOT / "docs" / "demo", date(2027, 1, 29))
    plan = plan_of(of)
    return plan, why(of, plan, most=3)


def in_one_line(text: str) -> str:
    """A text without its line breaks."""
    return " ".join(text.split())


def test_the_demos_page_is_the_golden_one(demo: Told) -> None:
    same_as_golden("why-80.txt", why_page(*demo))


def test_the_demos_sentences_are_the_golden_ones(demo: Told) -> None:
    same_as_golden("why-plain.txt", why_plain(*demo))


def test_no_line_is_wider_than_the_page(demo: Told) -> None:
    for width in (80, 100, 120):
        assert max(map(len, why_page(*demo, width).splitlines())) <= width


def test_the_page_is_plain_and_says_none_of_the_words_nobody_says_on_site(demo: Told) -> None:
    text = why_page(*demo) + why_plain(*demo)
    assert text.isascii()
    said = {word.strip(".,:;()") for word in text.lower().split()}
    assert not said & {"knot", "gain", "float", "proven", "law", "gate", "critical"}


def test_nights_are_left_out_of_the_page_and_kept_in_the_json(demo: Told) -> None:
    plan, answer = demo
    nights = [link for link in answer.links if is_a_night(link)]
    assert nights
    assert len(json.loads(why_as_json(plan, answer))["links"]) == len(answer.links)
    shown = sum(link.kind == "hours" for link in answer.links) - len(nights)
    assert in_one_line(why_plain(plan, answer)).count("nobody works until") == shown


def test_the_json_says_who_where_and_how_much(demo: Told) -> None:
    plan, answer = demo
    told = json.loads(why_as_json(plan, answer))
    assert (told["version"], told["kind"], told["of"], told["job"]) == (1, "why", HAND_OVER, plan.job)
    assert list(told) == ["version", "kind", "job", "zone", "as_of", "of", "at", "finish", "links", "untried"]
    assert told["at"] == told["finish"]
    glass = next(link for link in told["links"] if link["kind"] == "delivery")
    assert glass["cause"] == {"kind": "delivery", "of": "glass", "what": ""}
    assert glass["where"].startswith("job.yaml:")
    assert glass["saved_minutes"] >= DAY
    assert glass["finish"] < told["finish"]
    assert all((link["saved_minutes"] is None) == (link["finish"] is None) for link in told["links"])


def test_a_page_about_a_step_asks_about_that_step() -> None:
    coat, paint = step("coat", waits=[wait("paint", 48)]), step("paint", after="coat ready for paint")
    of = job(coat, paint, step("end", after="paint"))
    plan = plan_of(of)
    page = why_page(plan, why(of, plan, ident("paint")))
    assert page.startswith("tiny. Why u paint not sooner than Wed 4 March 09:00?")
    assert " Mon 2 Mar 09:00  | u coat stands 48 h" in page
    assert "If it were ready at once, hand-over moves to Mon 2 March, before noon." in page
    assert "2 days" in page


def test_where_nothing_saves_that_is_said() -> None:
    of = job(step("a"), step("b", after="a"))
    plan = plan_of(of)
    assert "Nothing of this alone would make hand-over sooner." in why_page(plan, why(of, plan))


def test_short_names_stand_for_whole_titles_alone() -> None:
    of = job(step("a"), step("b", after="a", by="plumber"))
    plan = plan_of(of)
    page = why_page(plan, why(of, plan))
    assert " | u b comes first" in page
    assert " | u a comes first" in page


@pytest.mark.parametrize(
    ("hours", "words"), [(1, "0"), (24, "1 day"), (96, "4 days")], ids=["same half-day", "a day", "over days"]
)
def test_savings_are_said_in_days_of_work(hours: int, words: str) -> None:
    of = job(step("coat", waits=[wait("paint", hours)]), step("paint", after="coat ready for paint"))
    plan = plan_of(of)
    line = next(line for line in why_page(plan, why(of, plan)).splitlines() if "stands" in line)
    assert line.endswith(f" {words}")


def test_with_several_rooms_a_step_is_named_with_its_room() -> None:
    of = job(
        step("coat", waits=[wait("paint", 48)]), step("hall/u/paint", after="coat ready for paint"),
        rooms=[room("bath"), room("hall")],
    )  # fmt: skip
    plan = plan_of(of)
    assert "bath: u coat stands 48 h" in why_page(plan, why(of, plan))


def test_a_person_who_does_not_come_is_named_with_the_day_he_does() -> None:
    of = job(step("pipes", by="plumber"), trades=[trade("plumber", days="Thu")])
    plan = plan_of(of)
    page = in_one_line(why_page(plan, why(of, plan)))
    assert "plumber does not come before Thu 5 Mar" in page
    assert "If plumber were free at all working hours, hand-over moves to Mon 2 March, before noon." in page


SMALL = {
    "job.yaml": """format: 1
job: small
place: {zone: Europe/London, holidays: none}
start: Mon 2 March 2026
people: {you: {hours: 08:00-16:00}}
air: 20 C 50 %
rooms:
  bath: {size: "2 m by 2 m, 2.4 m high", recipes: {coat: }}
""",
    "recipes/coat.yaml": """format: 1
recipe: coat
title: A coat
works on: [floor]
sources: {c: "common practice, no source"}
steps:
  first: {do: First coat, hours: 1 h (c), ready for: {second: "after 48 h, fixed (c)"}}
  second: {do: Second coat, hours: 1 h (c)}
""",
}


def small(folder: Path, **changes: str) -> str:
    """Writes the small job, with some words changed, and gives its folder."""
    (folder / "recipes").mkdir()
    for name, text in SMALL.items():
        for old, new in changes.items():
            text = text.replace(old, new)
        (folder / name).write_text(text, "utf-8")
    return str(folder)


def test_the_shell_tells_why_hand_over_is_not_sooner(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["why", "--job", small(tmp_path), "--today", "2026-03-02"]) == 0
    out, err = capsys.readouterr()
    assert out.startswith("small. Why not sooner than Wed 4 March 10:00?")
    assert "coat first stands 48 h" in out
    assert "hand-over moves to Mon 2 March, before noon" in in_one_line(out)
    assert err == ""


@pytest.mark.parametrize("words", [["second"], ["coat", "second"], ["bath/coat/second"]])
def test_the_shell_tells_it_of_one_step(words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["why", *words, "--job", small(tmp_path), "--today", "2026-03-02", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["of"] == "bath/coat/second"


@pytest.mark.parametrize(("word", "said"), [("sauna", "nothing here is called"), ("coat", "names several steps")])
def test_the_shell_refuses_what_is_no_one_step(
    word: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["why", word, "--job", small(tmp_path), "--today", "2026-03-02"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert said in err


def test_a_terminal_that_cannot_draw_gets_sentences(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = small(tmp_path)
    assert main(["why", "--job", folder, "--today", "2026-03-02", "--plain"]) == 0
    plain = capsys.readouterr().out
    monkeypatch.setenv("TERM", "dumb")
    assert main(["why", "--job", folder, "--today", "2026-03-02"]) == 0
    assert capsys.readouterr().out == plain
    assert "Without it alone hand-over is 2 days earlier" in in_one_line(plain)


@pytest.mark.parametrize("command", [["plan"], ["why", "--job"]])
def test_where_no_order_fits_the_shell_names_the_rules_that_collide(
    command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = small(tmp_path, **{"after 48 h": "after 9000 h"})
    assert main([*command, folder, "--today", "2026-03-02"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    told = err.splitlines()
    assert told[0] == "sequencer: No order of work fits all the rules."
    assert told[1] == "sequencer: This rule cannot be kept:"
    assert "recipes/coat.yaml:7:" in told[2]
    assert "First coat: ready for second after 375 d in the recipe's air; give: ready after" in told[2]


def test_where_no_order_fits_the_json_says_so_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = small(tmp_path, **{"after 48 h": "after 9000 h"})
    assert main(["why", "--job", folder, "--today", "2026-03-02", "--json"]) == 1
    told = json.loads(capsys.readouterr().out)
    assert told["kind"] == "no order fits"
    assert told["sentences"][1] == "This rule cannot be kept:"


def test_the_tiny_week_is_the_one_these_days_are_counted_in() -> None:
    assert tiny_jobs.moment("Mon 0") == tiny_jobs.MONDAY


def test_a_wet_film_that_waits_for_the_dust_of_the_step_before_is_said_so() -> None:
    """What held up is the step that made the dust; the wait for dust is the film's own."""
    film = step("b", after="a", on="wet walls", waits=[wait("dust", 4)], wet_film=True)
    of = job(step("a", on="floor", makes=("machine dust",)), film)
    plan = plan_of(of)
    assert "u a comes first, and the air clear " in why_page(plan, why(of, plan))
