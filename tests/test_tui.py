"""The screen: what it shows at two sizes, what each key does, and what happens when the files change."""

from __future__ import annotations

import asyncio
import os
import re
import subprocess
import sys
from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from time import monotonic
from typing import Any

import pytest
from golden_text import same_as_golden
from plans import ROOM, B, orchard_row, t, two_rooms
from textual.containers import VerticalScroll
from textual.pilot import Pilot
from textual.widgets import Input, Static

import tui.app
import tui.speaking
from sequencer.plan import Plan
from sequencer.views.diary import diary
from sequencer.views.lines import page, text_of
from sequencer.views.table import table_of
from tui.app import DiaryApp
from tui.ask import ask
from tui.boxes import TextBox
from tui.keys import KEYS, foot, help_text, keys_page
from tui.looks import ANSI, DARK, DARK_GROUND, LIGHT, LIGHT_GROUND, LOOKS, style_of
from tui.outcome import Outcome
from tui.pages import Cursor, Pages
from tui.shell import shell
from tui.watch import stamp

ROOT = Path(__file__).parent.parent
NARROW, WIDE = (80, 24), (120, 40)


@pytest.fixture
def outcomes(monkeypatch: pytest.MonkeyPatch) -> list[Outcome]:
    """What the planner will say, one after the other; the last is said again and again."""
    queue = [Outcome(orchard_row())]

    async def told(job: Path, today: date | None) -> Outcome:
        return queue.pop(0) if len(queue) > 1 else queue[0]

    monkeypatch.setattr(tui.app, "ask", told)
    return queue


@pytest.fixture
def looked_at_often(monkeypatch: pytest.MonkeyPatch) -> None:
    """Files are looked at so often that a key pressed meanwhile waits for it: only where a file is saved."""
    monkeypatch.setattr(tui.app, "LOOK_EVERY", 0.02)


def shown(app: DiaryApp) -> str:
    """The screen as text."""
    strips = app.screen._compositor.render_strips(app.size)
    return "".join("".join(segment.text for segment in strip).rstrip() + "\n" for strip in strips)


def on_screen(
    check: Callable[[DiaryApp, Pilot[None]], Awaitable[None]],
    size: tuple[int, int] = NARROW,
    job: Path = Path("nowhere"),
    in_color: bool = True,
    today: date = date(2026, 3, 2),
) -> None:
    """Runs a check on a screen that has its plan."""

    async def run() -> None:
        app = DiaryApp(job, today, in_color)
        async with app.run_test(size=size) as pilot:
            while app.outcome is None:
                await pilot.pause(0.01)
            await pilot.pause()
            await check(app, pilot)

    asyncio.run(run())


@pytest.mark.parametrize("size", [NARROW, WIDE], ids=["80x24", "120x40"])
def test_the_screen_is_as_it_was_read(size: tuple[int, int], outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press(*["down"] * 10, "right")
        await pilot.pause()
        same_as_golden(f"screen-{size[0]}x{size[1]}.txt", shown(app))

    on_screen(check, size)


@pytest.mark.parametrize(
    ("today", "shown_day"), [(date(2026, 2, 1), date(2026, 3, 2)), (date(2026, 3, 17), date(2026, 3, 17))]
)
def test_the_screen_opens_on_the_day_it_is_though_nothing_is_recorded(
    today: date, shown_day: date, outcomes: list[Outcome]
) -> None:
    """Before the job on its first day; the key for today goes there again."""

    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        assert app.diary.pages is not None
        assert app.diary.pages.day(app.diary.cursor) == shown_day
        await pilot.press("end", "t")
        await pilot.pause()
        assert app.diary.pages.day(app.diary.cursor) == shown_day

    on_screen(check, today=today)


@pytest.mark.parametrize("size", [(60, 16), NARROW, (100, 24), WIDE, (200, 50)])
def test_the_days_on_screen_are_the_lines_of_the_plain_diary(size: tuple[int, int], outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        width = min(80, size[0])
        lines = page(table_of(orchard_row(), ROOM, width, -1)[1]).splitlines()[2:]
        assert app.diary.pages is not None
        assert [text_of(spot.line) for spot in app.diary.pages.spots] == lines
        assert set(lines[1:]) <= set(diary(orchard_row(), width).splitlines())

    on_screen(check, size)


def test_arrows_move_the_cursor_over_days_and_surfaces_and_stop_at_the_edges(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        start = app.diary.cursor
        await pilot.press("down", "right")
        assert app.diary.cursor == Cursor(0, start.row + 1, start.column + 1)
        await pilot.press(*["up"] * 5, *["left"] * 9)
        assert app.diary.cursor == Cursor(0, 0, 0)
        await pilot.press("end")
        assert app.diary.pages is not None
        assert app.diary.pages.day(app.diary.cursor) == date(2026, 4, 9)
        await pilot.press("home", "pagedown")
        assert app.diary.cursor.row > 3
        await pilot.press("t")
        assert app.diary.pages.day(app.diary.cursor) == date(2026, 3, 2)

    on_screen(check)


def test_the_row_of_the_cursor_is_always_in_view_and_marked(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        for _ in range(12):
            await pilot.press("down", "down", "down")
            await pilot.pause()
            marked = [line for line in shown(app).splitlines() if line.startswith(">")]
            assert len(marked) == 1

    on_screen(check)


def test_the_story_follows_the_cursor(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        assert "MON 2 MARCH, FLOOR" in shown(app)
        await pilot.press("end")
        await pilot.pause()
        assert "THU 9 APRIL, ROOM" in shown(app)

    on_screen(check)


def test_w_goes_into_the_story_at_its_reason_and_esc_comes_back(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("w")
        await pilot.pause()
        pane = app.query_one("#story", VerticalScroll)
        assert app.focused is pane
        assert "WHY NOT SOONER" in shown(app)
        before = pane.scroll_y
        await pilot.press("down")
        await pilot.pause()
        assert pane.scroll_y > before
        await pilot.press("escape")
        assert app.focused is app.diary

    on_screen(check)


def test_finding_a_word_goes_to_its_step_and_n_to_the_next(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("slash", *"grout", "enter")
        await pilot.pause()
        assert app.diary.pages is not None
        assert app.found[0] == B + "grout/wipe"
        assert app.diary.pages.day(app.diary.cursor) == date(2026, 3, 23)
        assert not app.query_one("#find", Input).display
        await pilot.press("end", "n", "n")
        assert app.found[0] == B + "grout/wipe"
        await pilot.press("slash", *"roof", "enter")
        await pilot.pause()
        assert 'nothing here is called "roof"' in [note.message for note in app._notifications]

    on_screen(check)


def test_copying_shows_the_story_and_claims_no_more_than_it_knows(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("c")
        await pilot.pause()
        assert isinstance(app.screen, TextBox)
        assert app.clipboard.startswith("MON 2 MARCH, FLOOR")
        assert app.clipboard in app.screen.text
        assert "If pasting gives nothing" in app.screen.text
        await pilot.press("escape")
        assert not isinstance(app.screen, TextBox)

    on_screen(check)


def test_the_page_of_keys_opens_and_closes(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("question_mark")
        await pilot.pause()
        assert "why not sooner: go into the story" in shown(app)
        await pilot.press("question_mark")
        await pilot.pause()
        assert not isinstance(app.screen, TextBox)

    on_screen(check)


def test_a_click_on_a_cell_chooses_it(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.click("#diary", offset=(25, 3))
        assert app.diary.cursor == Cursor(0, 2, 1)

    on_screen(check)


def test_a_click_on_a_word_at_the_foot_does_it(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        at = shown(app).splitlines()[-1].index("? keys")
        await pilot.click("#does", offset=(at + 2, 0))
        await pilot.pause()
        assert isinstance(app.screen, TextBox)

    on_screen(check)


def test_q_leaves_and_ctrl_c_says_so(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+c")
        assert "q leaves; c copies the story" in [note.message for note in app._notifications]
        assert app.is_running
        await pilot.press("q")
        assert app._exit

    on_screen(check)


@pytest.mark.usefixtures("looked_at_often")
def test_when_a_file_is_saved_the_plan_is_made_again_and_the_cursor_stays(
    outcomes: list[Outcome], tmp_path: Path
) -> None:
    (tmp_path / "job.yaml").write_text("one", "utf-8")
    later = replace(orchard_row(), finish=t("10 April 09:00"))
    release = asyncio.Event()

    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("down", "down", "right")
        where = app.diary.cursor

        async def slow(job: Path, today: date | None) -> Outcome:
            await release.wait()
            return Outcome(later)

        tui.app.ask = slow  # type: ignore[assignment]
        (tmp_path / "job.yaml").write_text("another", "utf-8")
        note = app.query_one("#note", Static)
        while not note.display:
            await pilot.pause(0.02)
        assert "older: the files changed, planning again" in shown(app)
        assert "hand over Thu 9 Apr" in shown(app)
        release.set()
        while note.display:
            await pilot.pause(0.02)
        assert "hand over Fri 10 Apr" in shown(app)
        assert app.diary.cursor == where

    on_screen(check, job=tmp_path)


@pytest.mark.usefixtures("looked_at_often")
def test_faults_are_told_and_the_older_plan_stays(outcomes: list[Outcome], tmp_path: Path) -> None:
    faults = Outcome(None, "2 faults in the files", ("job.yaml:3:1: one; a", "job.yaml:4:1: two; b"))
    outcomes[:] = [Outcome(orchard_row()), faults]
    (tmp_path / "job.yaml").write_text("one", "utf-8")

    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        (tmp_path / "job.yaml").write_text("another", "utf-8")
        while app.outcome is not faults:
            await pilot.pause(0.02)
        await pilot.pause()
        text = shown(app)
        assert "2 faults in the files; the plan shown is older" in text
        assert "job.yaml:4:1: two; b" in text
        assert "hand over Thu 9 Apr" in text

    on_screen(check, job=tmp_path)


def test_faulty_files_without_an_older_plan_show_their_faults(outcomes: list[Outcome]) -> None:
    outcomes[:] = [Outcome(None, "1 fault in the files", ("job.yaml:3:1: one; a",))]

    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        assert "1 fault in the files\njob.yaml:3:1: one; a" in shown(app)
        for key in KEYS:
            if key.action not in ("leave", "find", "keys"):
                await pilot.press(*key.names)
        assert app.is_running

    on_screen(check)


def test_themes_go_round_and_without_color_only_weights_are_left(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        seen = [app.theme]
        for _ in range(3):
            await pilot.press("T")
            seen.append(app.theme)
        assert seen == [DARK, LIGHT, ANSI, DARK]

    async def colorless(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("T")
        assert app.theme == ANSI
        for look in LOOKS:
            assert style_of(look, app.theme).color is None

    on_screen(check)
    on_screen(colorless, in_color=False)


def luminance(color: str) -> float:
    """Relative luminance, WCAG 2.1, 'relative luminance'."""
    parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("look", LOOKS)
def test_every_color_stands_out_from_its_ground(look: str) -> None:
    """Contrast at least 4.5 to 1: WCAG 2.1, success criterion 1.4.3."""
    for color, ground in ((LOOKS[look].dark, DARK_GROUND), (LOOKS[look].light, LIGHT_GROUND)):
        high, low = sorted((luminance(color), luminance(ground)), reverse=True)
        assert (high + 0.05) / (low + 0.05) >= 4.5


def test_the_cursor_goes_from_room_to_room() -> None:
    pages = Pages(two_rooms(), 80)
    below = pages.moved(Cursor(0, 1, 0), 1, 0)
    assert below == Cursor(1, 0, 0)
    assert pages.moved(below, -1, 0) == Cursor(0, 1, 0)
    assert pages.moved(Cursor(1, 1, 0), 1, 0) == Cursor(1, 1, 0)


def test_a_cursor_is_kept_through_another_width_and_another_plan() -> None:
    plan = orchard_row()
    wide, narrow = Pages(plan, 80), Pages(plan, 60)
    cursor = wide.cell_of(B + "wetroom-membrane/fill")
    kept = narrow.kept(cursor, wide)
    assert narrow.day(kept) == date(2026, 3, 16)
    assert narrow.grids[0].columns[kept.column].name == "floor"
    shorter = Pages(replace(plan, steps=plan.steps[:5], closed=(), finish=t("6 March 16:00")), 80)
    assert shorter.day(shorter.kept(cursor, wide)) == date(2026, 3, 6)


def test_the_keys_at_the_foot_are_few_and_fit_a_small_screen() -> None:
    assert len(foot()) <= 6
    assert len("  ".join(f"{key} {word}" for key, word, _ in foot())) <= 66


def test_every_key_does_something_and_none_does_two_things() -> None:
    names = [name for key in KEYS for name in key.names]
    assert len(names) == len(set(names))
    for key in KEYS:
        assert hasattr(DiaryApp, f"action_{key.action}")
        assert key.tells in help_text()


@pytest.fixture
def spoken(monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """What the shell was asked; it always says the same."""
    asked: list[list[str]] = []

    async def says(words: list[str], today: date | None) -> str:
        asked.append(words)
        return "what moves"

    monkeypatch.setattr(tui.speaking, "shell", says)
    return asked


@pytest.mark.parametrize(
    ("keys", "typed", "said"),
    [
        (["d"], "", ["today", "nowhere"]),
        (["u"], "", ["undo", "--job", "nowhere"]),
        (["l"], "Thu", ["late", "plumber", "--until", "Thu", "--job", "nowhere"]),
        (["i"], "'12 March'", ["if", "late", "plumber", "--until", "12 March", "--job", "nowhere"]),
    ],
    ids=["day", "undo", "late", "if"],
)
def test_the_screen_speaks_with_the_shell_and_shows_what_it_says(
    keys: list[str], typed: str, said: list[str], outcomes: list[Outcome], spoken: list[list[str]]
) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press(*keys)
        if typed:
            field = app.query_one("#say", Input)
            assert field.display and field.value.endswith("late plumber --until ")
            field.value += typed
            await pilot.press("enter")
        await app.workers.wait_for_complete()
        await pilot.pause()
        assert spoken == [said]
        assert isinstance(app.screen, TextBox) and app.screen.text == "what moves"

    on_screen(check)


def test_a_field_left_with_esc_says_nothing(outcomes: list[Outcome], spoken: list[list[str]]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        await pilot.press("l", "escape")
        assert not app.query_one("#say", Input).display
        assert spoken == []

    on_screen(check)


def test_the_shell_of_the_screen_tells_text_and_talk(tmp_path: Path) -> None:
    said = asyncio.run(shell(["today", str(tmp_path)], None))
    assert "job.yaml" in said


def test_the_page_of_keys_in_the_docs_is_the_table() -> None:
    assert (ROOT / "docs" / "keys.md").read_text("utf-8") == keys_page()


def test_the_files_of_a_job_are_watched_and_nothing_else(tmp_path: Path) -> None:
    job = tmp_path / "job"
    (job / "recipes").mkdir(parents=True)
    (job / "told" / "tiny").mkdir(parents=True)
    watched = ("job/job.yaml", "job/recipes/own.yaml", "job/logger.csv", "people.yaml", "job/site-book.txt",
               "job/told/tiny/plan.json")  # fmt: skip
    for name in (*watched, "job/notes.txt", "other.yaml"):
        (tmp_path / name).write_text("x", "utf-8")
    assert {file.name for file in stamp(job)} == {Path(name).name for name in watched}
    before = stamp(job / "job.yaml")
    assert before == stamp(job)
    (job / "job.yaml").write_text("longer", "utf-8")
    assert stamp(job) != before


def test_the_planner_is_a_process_that_tells_faults(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("format: 1\nclour: red\n", "utf-8")
    told = asyncio.run(ask(tmp_path, None))
    assert told.plan is None
    assert "in the files" in told.title
    assert any(text.startswith("job.yaml:2:1: ") for text in told.texts)


def test_a_planner_nobody_waits_for_is_ended(monkeypatch: pytest.MonkeyPatch) -> None:
    started: list[asyncio.subprocess.Process] = []
    start = asyncio.create_subprocess_exec

    async def remembered(*given: Any, **more: Any) -> asyncio.subprocess.Process:
        started.append(await start(*given, **more))
        return started[0]

    monkeypatch.setattr(asyncio, "create_subprocess_exec", remembered)

    async def leave() -> None:
        task = asyncio.create_task(ask(ROOT / "docs" / "demo", None))
        while not started:
            await asyncio.sleep(0.01)
        assert started[0].returncode is None
        task.cancel()
        with pytest.raises(asyncio.CancelledError):
            await task

    asyncio.run(leave())
    assert started[0].returncode not in (None, 0)


def test_a_plan_goes_from_process_to_process_whole() -> None:
    import pickle

    plan: Plan = pickle.loads(pickle.dumps(orchard_row()))
    assert plan == orchard_row()


def test_a_terminal_that_is_too_small_gets_sentences_and_is_told_why(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("format: 1\nclour: red\n", "utf-8")
    environment = {**os.environ, "COLUMNS": "50", "LINES": "15"}
    ran = subprocess.run(
        [sys.executable, "-m", "tui", str(tmp_path)], cwd=ROOT, env=environment, capture_output=True, text=True
    )
    assert ran.returncode == 2
    assert "job.yaml:2:1: " in ran.stderr


def in_a_terminal(job: Path, **environment: str) -> bytes:
    """What the screen of a job sends to a real terminal until it is left."""
    import pty
    import select

    leader, follower = pty.openpty()
    more = {"TERM": "xterm-256color", "COLUMNS": "80", "LINES": "24", **environment}
    process = subprocess.Popen(
        [sys.executable, "-m", "sequencer", str(job)],
        cwd=ROOT,
        env={**{name: value for name, value in os.environ.items() if name != "NO_COLOR"}, **more},
        **dict.fromkeys(("stdin", "stdout", "stderr"), follower),
    )
    sent, asked, end = b"", False, monotonic() + 60
    while process.poll() is None and monotonic() < end:
        if select.select([leader], [], [], 0.1)[0]:
            sent += os.read(leader, 65536)
        if b"in the files" in sent and not asked:
            os.write(leader, b"q")
            asked = True
    process.kill()
    process.wait()
    os.close(leader)
    os.close(follower)
    assert process.returncode == 0
    return sent


@pytest.mark.skipif(os.name == "nt", reason="a terminal of POSIX")
@pytest.mark.parametrize(
    ("environment", "in_color"), [({}, True), ({"NO_COLOR": ""}, True), ({"NO_COLOR": "1"}, False)]
)
def test_no_color_is_obeyed_if_it_is_set_and_not_empty(
    environment: dict[str, str], in_color: bool, tmp_path: Path
) -> None:
    """no-color.org: present and not an empty string."""
    (tmp_path / "job.yaml").write_text("format: 1\nclour: red\n", "utf-8")
    sent = in_a_terminal(tmp_path, **environment)
    codes = {code for found in re.findall(rb"\x1b\[([0-9;]*)m", sent) for code in found.split(b";")}
    assert (b"38" in codes or b"48" in codes) == in_color
    if not in_color:
        assert codes <= {b"", b"0", b"1", b"2", b"4", b"7", b"39", b"49"}


def test_on_a_narrow_screen_the_keys_and_the_line_of_the_cursor_stay_apart(outcomes: list[Outcome]) -> None:
    async def check(app: DiaryApp, pilot: Pilot[None]) -> None:
        foot_line = shown(app).splitlines()[-1]
        assert re.search(r"\S {2,}line \d+ of \d+$", foot_line)

    for width in (60, 64, 71, 80):
        on_screen(check, (width, 24))
