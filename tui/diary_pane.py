"""The diary on screen: the lines of the views, drawn line by line, with a cursor on one cell."""

from __future__ import annotations

from datetime import date

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from sequencer.plan import Plan
from sequencer.views.lines import Piece
from tui.looks import style_of
from tui.pages import Cursor, Pages

CURSOR = Style(reverse=True, bold=True)


class DiaryPane(ScrollView, can_focus=True, inherit_bindings=False):
    """Shows the days of a plan; tells of every move of its cursor."""

    class Moved(Message):
        """The cursor stands on another cell, or on another plan."""

    def __init__(self, widest: int, id: str) -> None:
        super().__init__(id=id)
        self.widest = widest
        self.pages: Pages | None = None
        self.cursor = Cursor(0, 0, 0)
        self.today = date.min

    def show(self, plan: Plan, today: date) -> None:
        """Lays out a plan; the cursor stays on its day and surface. At first it stands on today's most telling cell;
        before or after the job, on the first or last day's."""
        self.today = today
        before = self.pages
        width = min(self.widest, max(40, self.size.width))
        self.pages = Pages(plan, width)
        self.virtual_size = Size(self.pages.width, len(self.pages.spots))
        self.go(self.pages.kept(self.cursor, before) if before else self.pages.on_day(today))

    def go(self, cursor: Cursor) -> None:
        """Moves the cursor and brings its row into view."""
        if self.pages is None:
            return
        self.cursor = self.pages.inside(cursor)
        lines = self.pages.lines_of(self.cursor)
        self.scroll_to_region(Region(0, lines.start, 1, len(lines)), animate=False, force=True, immediate=True)
        self.refresh()
        self.post_message(self.Moved())

    def move(self, rows: int, columns: int) -> None:
        """So many rows down and columns right."""
        if self.pages is not None:
            self.go(self.pages.moved(self.cursor, rows, columns))

    def on_resize(self) -> None:
        if self.pages is not None:
            self.show(self.pages.plan, self.today)

    def on_click(self, event: events.Click) -> None:
        if self.pages is not None:
            cell = self.pages.cell_at(event.y + self.scroll_offset.y, event.x + self.scroll_offset.x)
            if cell is not None:
                self.go(cell)

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        number = y + self.scroll_offset.y
        ground = self.rich_style
        if self.pages is None or number >= len(self.pages.spots):
            return Strip.blank(self.size.width, ground)
        spot = self.pages.spots[number]
        here = (spot.room, spot.row) == (self.cursor.room, self.cursor.row)
        segments = [Segment(piece.text, ground + self._style(piece, spot.room)) for piece in spot.line]
        if here and number == self.pages.lines_of(self.cursor).start:
            segments[0] = Segment(">" + segments[0].text[1:], segments[0].style)
        return Strip(segments).adjust_cell_length(self.size.width, ground)

    def _style(self, piece: Piece, room: int) -> Style:
        style = style_of(piece.look, self.app.theme)
        chosen = piece.cell == (self.cursor.row, self.cursor.column) and room == self.cursor.room
        return style + CURSOR if chosen else style
