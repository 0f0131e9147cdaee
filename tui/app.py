"""The site diary on screen: read-only; it plans again when the files change and shows what the views say."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container, Horizontal, VerticalScroll
from textual.widgets import Input, Static

from sequencer.plan import Plan
from sequencer.views.clock import Clock
from sequencer.views.diary import WIDTH
from sequencer.views.story import Story
from sequencer.views.table import legend
from sequencer.views.when import steps_named
from sequencer.views.wide import story_lines
from tui.ask import ask
from tui.boxes import TextBox
from tui.diary_pane import DiaryPane
from tui.keys import KEYS, foot, help_text
from tui.looks import ANSI, DARK, NAMES, THEMES, style_of
from tui.outcome import Outcome
from tui.pages import HEAD_LINES, Cursor
from tui.speaking import Speaking
from tui.watch import Stamp, stamp

LOOK_EVERY = 1.0
"""How often the files are looked at [s]."""

COPIED = """Sent to the terminal's clipboard. If pasting gives nothing, select the text above with the mouse,
or write the plan to a file: sequencer plan -o FILE"""

WIDE_FROM = 100
"""From this width on [columns] the story stands beside the diary, not below it."""


class DiaryApp(Speaking):
    """The screen of one job."""

    CSS_PATH = "diary.tcss"
    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (WIDE_FROM, "-wide")]
    BINDINGS = [
        *(Binding(name, f"{key.action}('{name}')", key.tells, show=False) for key in KEYS for name in key.names),
        Binding("ctrl+c", "leave_hint", show=False, priority=True),
    ]

    def __init__(self, job: Path, today: date | None = None, in_color: bool = True) -> None:
        super().__init__(ansi_color=None if in_color else True)
        self.job, self.today, self.in_color = job, today, in_color
        self.outcome: Outcome | None = None
        self.plan: Plan | None = None
        self.told: Story | None = None
        self.seen: Stamp = {}
        self.found: list[str] = []
        self.animation_level = "none"

    def compose(self) -> ComposeResult:
        yield Static(id="head", markup=False)
        yield Static("reading the files and planning ...", id="note", markup=False)
        with Container(id="body"):
            yield DiaryPane(WIDTH, id="diary")
            with VerticalScroll(id="story"):
                yield Static(id="told", markup=False)
        yield Static(id="legend", markup=False)
        yield Input(id="find", placeholder="a step, a recipe or a surface")
        yield Input(id="say", placeholder="late plumber --until Thu")
        with Horizontal(id="foot"):
            yield Static(self._foot(), id="does")
            yield Static(id="where", markup=False)

    def on_mount(self) -> None:
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = DARK if self.in_color else ANSI
        self.diary.focus()
        self.look()
        self.set_interval(LOOK_EVERY, self.look)

    @property
    def diary(self) -> DiaryPane:
        """The pane of days."""
        return self.query_one("#diary", DiaryPane)

    def look(self) -> None:
        """Plans anew if a file was saved since the last look."""
        now = stamp(self.job)
        if now != self.seen or (self.outcome is None and not self.workers):
            self.seen = now
            if self.plan is not None:
                self.note("older: the files changed, planning again")
            self.run_worker(self._plan(), group="plan", exclusive=True)

    async def _plan(self) -> None:
        self.outcome = await ask(self.job, self.today)
        self.show_outcome(self.outcome)

    def show_outcome(self, outcome: Outcome) -> None:
        """Shows a plan; or, over the older plan if there is one, why there is no new one."""
        if outcome.plan is not None:
            self.plan = outcome.plan
            self.note("")
            self.diary.show(outcome.plan, self._day_it_is(outcome.plan))
            return
        older = "; the plan shown is older" if self.plan is not None else ""
        self.note("\n".join((outcome.title + older, *outcome.texts)))

    def note(self, text: str) -> None:
        """A line over the diary, none without a text."""
        note = self.query_one("#note", Static)
        note.update(text)
        note.display = bool(text)

    def on_diary_pane_moved(self) -> None:
        """Heads and story follow the cursor."""
        pages = self.diary.pages
        if pages is None:
            return
        cursor = self.diary.cursor
        head = Text("\n".join(pages.heads[cursor.room]), style_of("head", self.theme))
        for line in pages.tables[cursor.room][:HEAD_LINES]:
            head.append("\n")
            for piece in line:
                head.append(piece.text, style_of(piece.look, self.theme))
        self.query_one("#head", Static).update(head)
        rows = len(pages.grids[cursor.room].rows)
        self.query_one("#where", Static).update(f"line {cursor.row + 1} of {rows}")
        self.query_one("#legend", Static).update(legend(self.size.width)[0])
        self.told = pages.story(cursor)
        pane = self.query_one("#story", VerticalScroll)
        width = max(20, pane.size.width - 2)
        self.query_one("#told", Static).update("\n".join(story_lines(self.told, width)))
        pane.scroll_home(animate=False)

    def on_resize(self) -> None:
        self.call_after_refresh(self.on_diary_pane_moved)

    def _foot(self) -> str:
        return "  ".join(f"[@click=app.{action}('foot')]{key} {word}[/]" for key, word, action in foot())

    def action_move(self, key: str) -> None:
        """One cell in the direction of an arrow."""
        down, right = {"up": (-1, 0), "down": (1, 0), "left": (0, -1), "right": (0, 1)}.get(key, (0, 0))
        self.diary.move(down, right)

    def action_page(self, key: str) -> None:
        """About a screen of days."""
        rows = max(1, self.diary.size.height // 2)
        self.diary.move(rows if key == "pagedown" else -rows, 0)

    def action_first(self, _: str) -> None:
        """The first day."""
        self.diary.go(Cursor(0, 0, self.diary.cursor.column))

    def action_last(self, _: str) -> None:
        """The day of hand-over."""
        if self.plan is not None:
            self._to_day(Clock(self.plan.zone).day(self.plan.finish))

    def action_today(self, _: str) -> None:
        """The day it is."""
        if self.plan is not None:
            self._to_day(self._day_it_is(self.plan))

    def _day_it_is(self, plan: Plan) -> date:
        """Today, or the day that was asked for. A plan is made as on its first day while nothing is recorded of it."""
        return self.today or datetime.now(ZoneInfo(plan.zone)).date()

    def _to_day(self, day: date) -> None:
        if self.diary.pages is not None:
            self.diary.go(self.diary.pages.on_day(day, self.diary.cursor.room))

    def action_why(self, _: str) -> None:
        """Into the story, at its reason."""
        pane = self.query_one("#story", VerticalScroll)
        pane.focus()
        width = max(20, pane.size.width - 2)
        lines = story_lines(self.told, width) if self.told else []
        if "WHY NOT SOONER" in lines:
            pane.scroll_to(y=lines.index("WHY NOT SOONER"), animate=False)

    def action_open(self, _: str) -> None:
        """Into the story."""
        self.query_one("#story", VerticalScroll).focus()

    def action_to_diary(self, _: str) -> None:
        """Back to the diary."""
        for field in self.query(Input):
            field.display = False
        self.diary.focus()

    def action_find(self, _: str) -> None:
        """Asks what to find."""
        self.ask_in("#find", "")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Goes to the first step found on or after the cursor's day; or says what was said to the shell."""
        self.action_to_diary("")
        if event.input.id == "say":
            self.say_to_shell(event.value)
            return
        pages = self.diary.pages
        if self.plan is None or pages is None or not event.value.strip():
            return
        self.found = [step.id for step in steps_named(self.plan, event.value)]
        if not self.found:
            self.notify(f'nothing here is called "{event.value}"', markup=False)
            return
        first = Clock(self.plan.zone).midnight(pages.day(self.diary.cursor))
        behind = [id for id in self.found if self.plan.step(id).start < first]
        self.found = [*self.found[len(behind) :], *behind]
        self._show_found()

    def action_next(self, _: str) -> None:
        """The next step found."""
        if self.found:
            self.found = [*self.found[1:], self.found[0]]
            self._show_found()

    def _show_found(self) -> None:
        known = {step.id for step in self.plan.steps} if self.plan else set()
        self.found = [id for id in self.found if id in known]
        if self.found and self.diary.pages is not None:
            self.diary.go(self.diary.pages.cell_of(self.found[0]))

    def action_copy(self, _: str) -> None:
        """Sends the story to the clipboard, and shows it, since nobody knows whether it got there."""
        if self.told is None:
            return
        text = "\n".join(story_lines(self.told, WIDTH))
        self.copy_to_clipboard(text)
        self.push_screen(TextBox("copied", f"{text}\n\n{COPIED}"))

    def action_theme(self, _: str) -> None:
        """The next of dark, light, the terminal's own."""
        if self.in_color:
            self.theme = NAMES[(NAMES.index(self.theme) + 1) % len(NAMES)]
            self.on_diary_pane_moved()
            self.diary.refresh()
        else:
            self.notify("NO_COLOR is set; the terminal's own colors stay")

    def action_keys(self, _: str) -> None:
        """All keys."""
        self.push_screen(TextBox("keys", help_text()))

    def action_leave(self, _: str) -> None:
        """Leaves at once; nothing is lost."""
        self.exit()

    def action_leave_hint(self) -> None:
        """ctrl+c copies what is selected; else it says how to leave."""
        selected = self.screen.get_selected_text()
        if selected:
            self.copy_to_clipboard(selected)
        self.notify("sent to the terminal's clipboard" if selected else "q leaves; c copies the story")
