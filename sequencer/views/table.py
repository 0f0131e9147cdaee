"""The grid of one room laid out as lines of pieces: the table every diary shows, whatever shows it."""

from __future__ import annotations

from sequencer.plan import Plan
from sequencer.terms.words import MARKS
from sequencer.views.clock import MONTHS, weekday
from sequencer.views.columns import columns_of
from sequencer.views.grid import Cell, Grid, Row, Said, grid_of, today_row
from sequencer.views.lines import Line, Piece, cut, plain_line

DAY_WIDTH = 10
SITE_WIDTH = 14
NARROWEST_CELL = 10
"""A diary's columns fold while they would be narrower than this [characters]."""


def table_of(plan: Plan, room: str, width: int, chosen: int | None = None) -> tuple[Grid, list[Line]]:
    """A room's grid and its table in `width` characters: two lines of head, then the days.

    `chosen`: the row marked with `>`; without it, today's.
    """
    for_cells = width - DAY_WIDTH - 1 - SITE_WIDTH
    most = max(1, for_cells // (NARROWEST_CELL + 1) - 1)
    columns = columns_of(plan, room, most)
    wide, spare = divmod(for_cells, len(columns) + 1)
    widths = [wide - 1 + (index < spare) for index in range(len(columns) + 1)]
    grid = grid_of(plan, room, columns, min(widths) - 1, SITE_WIDTH - 1)
    marked = today_row(grid, plan) if chosen is None else chosen
    lines = [_head(grid, widths), plain_line(_rule(widths), "quiet")]
    for index, row in enumerate(grid.rows):
        lines += _lines_of(row, index, widths, index == marked)
    return grid, lines


def legend(width: int) -> list[str]:
    """The marks and what they mean, on as many lines as they need."""
    signs = [f"{mark.sign} {_meaning(key)}" for key, mark in MARKS.items()]
    lines = [""]
    for sign in signs:
        joined = f"{lines[-1]}   {sign}" if lines[-1] else sign
        if len(joined) <= width:
            lines[-1] = joined
        else:
            lines.append(sign)
    return lines


def _meaning(key: str) -> str:
    mark = MARKS[key]
    return mark.word if key in ("dries", "water on") else mark.asks


def _head(grid: Grid, widths: list[int]) -> Line:
    month = MONTHS[grid.rows[0].first.month - 1] if grid.rows else "day"
    names = [column.name for column in grid.columns] + ["room"]
    cells = "".join(f"|{' ' + cut(name, wide - 1):{wide}}" for name, wide in zip(names, widths, strict=True))
    return plain_line(f" {month:{DAY_WIDTH - 1}}{cells}| on site", "head")


def _rule(widths: list[int]) -> str:
    return "-" * DAY_WIDTH + "".join("+" + "-" * wide for wide in widths) + "+" + "-" * SITE_WIDTH


def _day(row: Row) -> str:
    if row.thin and not row.room:
        return "- -"
    if row.first.day == 1:
        return f"{weekday(row.first)} 1 {MONTHS[row.first.month - 1][:3]}"
    return f"{weekday(row.first)} {row.first.day}"


def _lines_of(row: Row, index: int, widths: list[int], marked: bool) -> list[Line]:
    cells = [*row.cells, row.room]
    lines = []
    for number in range(max(1, len(row.on_site), *map(len, cells))):
        first = number == 0
        day = f"{'>' if marked and first else ' '}{_day(row) if first else '':{DAY_WIDTH - 1}}"
        pieces = [Piece(day, "quiet" if row.thin else "")]
        for column, (cell, wide) in enumerate(zip(cells, widths, strict=True)):
            pieces += [Piece("|", "quiet"), _piece(cell, number, wide, (index, column))]
        lines.append((*pieces, Piece("| ", "quiet"), Piece("".join(row.on_site[number : number + 1]))))
    return lines


def _piece(cell: Cell, number: int, wide: int, at: tuple[int, int]) -> Piece:
    said = cell[number] if number < len(cell) else Said("")
    return Piece(f" {cut(said.text, wide - 1):{wide - 1}}", said.look, at)
