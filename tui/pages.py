"""The lines of the diary as the screen scrolls them, and where its cursor is. Knows no terminal."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from sequencer.plan import Plan
from sequencer.views.clock import Clock
from sequencer.views.columns import rooms_of
from sequencer.views.diary import head_of
from sequencer.views.grid import Grid
from sequencer.views.lines import Line, plain_line
from sequencer.views.story import ROOM_COLUMN, Story
from sequencer.views.table import table_of
from sequencer.views.wide import story_at, telling_cell

HEAD_LINES = 2
"""Lines of a table before its days."""

NOT_MARKED = -1


@dataclass(frozen=True)
class Cursor:
    """A cell: number of the room, of the row and of the column; the column after the surfaces is the room's own."""

    room: int
    row: int
    column: int


@dataclass(frozen=True)
class Spot:
    """A line on screen, and the row it belongs to (None for heads and blanks)."""

    line: Line
    room: int
    row: int | None


class Pages:
    """A plan laid out in a width."""

    def __init__(self, plan: Plan, width: int) -> None:
        self.plan = plan
        self.heads: list[list[str]] = []
        self.tables: list[list[Line]] = []
        self.grids: list[Grid] = []
        self.spots: list[Spot] = []
        for number, room in enumerate(rooms_of(plan)):
            grid, table = table_of(plan, room, width, NOT_MARKED)
            head = head_of(plan, room, width)
            self.grids.append(grid)
            self.heads.append(head)
            self.tables.append(table[:HEAD_LINES])
            if number:
                above = ["", *head]
                self.spots += [Spot(plain_line(text, "head"), number, None) for text in above]
                self.spots += [Spot(line, number, None) for line in table[:HEAD_LINES]]
            self.spots += [Spot(line, number, _row(line)) for line in table[HEAD_LINES:]]

    @property
    def width(self) -> int:
        """The widest line [characters]."""
        return max((sum(len(piece.text) for piece in spot.line) for spot in self.spots), default=0)

    def on_day(self, day: date, room: int = 0, column: int | None = None) -> Cursor:
        """A cell of a day in a room: of a column, else the most telling one."""
        row, telling = telling_cell(self.grids[room], self.grids[room].row_of(day))
        return self.inside(Cursor(room, row, telling if column is None else column))

    def inside(self, cursor: Cursor) -> Cursor:
        """The nearest cell there is."""
        room = min(max(cursor.room, 0), len(self.grids) - 1)
        grid = self.grids[room]
        row = min(max(cursor.row, 0), len(grid.rows) - 1)
        return Cursor(room, row, min(max(cursor.column, 0), len(grid.columns)))

    def moved(self, cursor: Cursor, rows: int, columns: int) -> Cursor:
        """So many rows down and columns right; past the end of one room's days come the next room's."""
        row = cursor.row + rows
        if row < 0 and cursor.room > 0:
            above = cursor.room - 1
            return self.inside(replace(cursor, room=above, row=len(self.grids[above].rows) - 1))
        if row >= len(self.grids[cursor.room].rows) and cursor.room + 1 < len(self.grids):
            return self.inside(replace(cursor, room=cursor.room + 1, row=0))
        return self.inside(Cursor(cursor.room, row, cursor.column + columns))

    def lines_of(self, cursor: Cursor) -> range:
        """The numbers of a row's lines."""
        numbers = [n for n, spot in enumerate(self.spots) if (spot.room, spot.row) == (cursor.room, cursor.row)]
        return range(numbers[0], numbers[-1] + 1)

    def cell_at(self, line: int, x: int) -> Cursor | None:
        """The cell under a spot of the screen."""
        if not 0 <= line < len(self.spots) or self.spots[line].row is None:
            return None
        start = 0
        for piece in self.spots[line].line:
            start += len(piece.text)
            if x < start and piece.cell is not None:
                return Cursor(self.spots[line].room, *piece.cell)
        return None

    def story(self, cursor: Cursor) -> Story:
        """The story of a cell."""
        return story_at(self.plan, self.grids[cursor.room], cursor.row, cursor.column)

    def day(self, cursor: Cursor) -> date:
        """The first day of a row."""
        return self.grids[cursor.room].rows[cursor.row].first

    def cell_of(self, step_id: str) -> Cursor:
        """The cell in which a step begins."""
        step = self.plan.step(step_id)
        room = next((n for n, grid in enumerate(self.grids) if grid.room == step.room), 0)
        columns = self.grids[room].columns
        column = next((n for n, one in enumerate(columns) if one.shows(step.surfaces)), len(columns))
        return self.on_day(Clock(self.plan.zone).day(step.start), room, column)

    def kept(self, cursor: Cursor, before: Pages) -> Cursor:
        """A cell of another layout of the job: the same room, day and surface, as far as they are still there."""
        old = before.grids[cursor.room]
        names = [*(column.name for column in old.columns), ROOM_COLUMN.name]
        room = next((n for n, grid in enumerate(self.grids) if grid.room == old.room), 0)
        columns = [*(column.name for column in self.grids[room].columns), ROOM_COLUMN.name]
        name = names[cursor.column]
        return self.on_day(before.day(cursor), room, columns.index(name) if name in columns else None)


def _row(line: Line) -> int | None:
    return next((piece.cell[0] for piece in line if piece.cell is not None), None)
