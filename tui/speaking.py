"""Keys that say something to the shell: who is late, what if, undo; and the day on site."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from shlex import split

from textual.app import App
from textual.widgets import Input

from sequencer.plan import Plan
from sequencer.views.clock import Clock
from tui.boxes import TextBox
from tui.diary_pane import DiaryPane
from tui.shell import shell


class Speaking(App[None]):
    """A screen of one job that can be spoken with."""

    job: Path
    today: date | None
    plan: Plan | None

    def note(self, text: str) -> None:
        """A line over the diary, none without a text."""
        raise NotImplementedError

    def ask_in(self, field: str, value: str) -> None:
        """Opens a field to write in."""
        asked = self.query_one(field, Input)
        asked.display = True
        asked.value = value
        asked.cursor_position = len(value)
        asked.focus()

    def action_day(self, _: str) -> None:
        """The day on site, on a page of its own."""
        self._shell("the day on site", ["today", str(self.job)])

    def action_late(self, _: str) -> None:
        """Asks who is late; what is said is written into the site book."""
        self.ask_in("#say", f"late {self._trade()} --until ")

    def action_if(self, _: str) -> None:
        """Asks what to think of; nothing is written."""
        self.ask_in("#say", f"if late {self._trade()} --until ")

    def action_undo(self, _: str) -> None:
        """Strikes the newest line of the site book."""
        self._shell("undo", ["undo", "--job", str(self.job)])

    def _trade(self) -> str:
        """Who comes next from the chosen day on, other than you."""
        pages = self.query_one(DiaryPane).pages
        if self.plan is None or pages is None:
            return ""
        since = Clock(self.plan.zone).midnight(pages.day(self.query_one(DiaryPane).cursor))
        coming = (visit for visit in self.plan.visits if visit.end > since)
        return next((visit.trade for visit in coming), "")

    def say_to_shell(self, text: str) -> None:
        """Does a command as it would be written in a shell, on this job."""
        try:
            words = split(text)
        except ValueError:
            self.notify("a quotation mark is missing", markup=False)
            return
        if words:
            self._shell(text, [*words, "--job", str(self.job)])

    def _shell(self, title: str, words: list[str]) -> None:
        self.note(f"{title}: worked out ...")
        self.run_worker(self._told(title, words), group="said", exclusive=True)

    async def _told(self, title: str, words: list[str]) -> None:
        text = await shell(words, self.today)
        self.note("")
        self.push_screen(TextBox(title, text))
