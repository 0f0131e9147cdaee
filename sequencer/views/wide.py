"""The wide diary: the table at the left, the story of one cell at the right."""

from __future__ import annotations

from itertools import zip_longest

from sequencer.plan import Plan
from sequencer.views.columns import rooms_of
from sequencer.views.diary import WIDTH, head_of
from sequencer.views.foot import foot_of
from sequencer.views.grid import Grid, today_row
from sequencer.views.lines import Line, Piece, laid_out, page, plain_line, wrapped
from sequencer.views.story import ROOM_COLUMN, Story, story
from sequencer.views.table import legend, table_of

WIDE = 120
BETWEEN = " : "


def wide_diary(plan: Plan, width: int = WIDE) -> str:
    """Every room's table, each beside the story of its most telling cell today, then the foot."""
    lines: list[Line] = []
    for room in rooms_of(plan):
        lines += [plain_line(text, "head") for text in head_of(plan, room, width)]
        grid, table = table_of(plan, room, WIDTH)
        row, column = telling_cell(grid, today_row(grid, plan) or 0)
        told = story_lines(story_at(plan, grid, row, column), width - WIDTH - len(BETWEEN))
        lines += [_beside(left, right) for left, right in zip_longest(table, told)]
        lines.append(plain_line(""))
    lines += [plain_line(text, "quiet") for text in legend(width)]
    lines.append(plain_line(""))
    return page([*lines, *(plain_line(text) for text in laid_out(foot_of(plan), width))])


def telling_cell(grid: Grid, row: int) -> tuple[int, int]:
    """The first cell of a row in which somebody works, else in which anything stands, else the first one."""
    cells = [*grid.rows[row].cells, grid.rows[row].room]
    for looks in (("work", "inspector"), ("water on", "keep off", "leave", "dries", "free")):
        for column, cell in enumerate(cells):
            if any(said.look in looks for said in cell):
                return row, column
    return row, 0


def story_at(plan: Plan, grid: Grid, row: int, column: int) -> Story:
    """The story of a cell; the column after the last surface is the room itself."""
    here = grid.rows[row]
    names = [one.name for one in grid.columns] + [ROOM_COLUMN.name]
    return story(plan, here.first, names[column], grid.room, here.last)


def story_lines(told: Story, width: int) -> list[str]:
    """A story as lines of at most `width` characters."""
    sections = list(told.sections)
    lines = wrapped(told.title.upper(), width)
    for section in sections:
        if section.name:
            lines += ["", *laid_out([section], width)]
        else:
            lines += [line for text in section.texts for line in wrapped(text, width, " ", "   ")]
    return lines


def _beside(left: Line | None, right: str | None) -> Line:
    pieces = left or ()
    used = sum(len(piece.text) for piece in pieces)
    return (*pieces, Piece(" " * (WIDTH - used)), Piece(BETWEEN, "quiet"), Piece(right or ""))
