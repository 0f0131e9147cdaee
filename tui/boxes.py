"""Pages that lie over the diary until a key is pressed."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static


class TextBox(ModalScreen[None]):
    """A page of plain text; esc, q or the key that opened it closes it."""

    BINDINGS = [("escape,q,question_mark,c,enter", "dismiss", "close")]

    def __init__(self, title: str, text: str) -> None:
        super().__init__()
        self.page_title, self.text = title, text

    def compose(self) -> ComposeResult:
        with VerticalScroll():
            yield Static(self.text, markup=False)

    def on_mount(self) -> None:
        box = self.query_one(VerticalScroll)
        box.border_title = self.page_title
        box.border_subtitle = "esc closes"
