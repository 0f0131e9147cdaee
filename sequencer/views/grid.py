"""The diary of one room as a grid: days run down, surfaces stand side by side, each cell says what happens there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute
from sequencer.terms.words import MARKS, THIN_NAMES, in_words
from sequencer.views.clock import Clock, weekday
from sequencer.views.columns import Column
from sequencer.views.held import Held, base, held_in, worst
from sequencer.views.lines import cut, wrapped

HAND_OVER = "hand over"
MOST_LINES = 3
"""Steps of one cell told in a day's own lines; further ones are counted."""


@dataclass(frozen=True)
class Said:
    """One line of a cell: a short text and the name of its look."""

    text: str
    look: str = ""


Cell = tuple[Said, ...]
"""What stands in a cell, line by line."""


@dataclass(frozen=True)
class Row:
    """A day, or a weekend nobody works. `thin`: nobody may or does work on any of its days."""

    first: date
    last: date
    start: Minute
    end: Minute
    thin: bool
    cells: tuple[Cell, ...]
    room: Cell
    on_site: tuple[str, ...]


@dataclass(frozen=True)
class Grid:
    """One room's diary."""

    room: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def row_of(self, day: date) -> int:
        """Index of the row a day lies in; the nearest row if it lies outside."""
        inside = (index for index, row in enumerate(self.rows) if row.last >= day)
        return next(inside, max(0, len(self.rows) - 1))


def grid_of(plan: Plan, room: str, columns: tuple[Column, ...], width: int, site_width: int) -> Grid:
    """The diary of a room: texts of at most `width` characters in cells, of `site_width` in the column of people."""
    return _Sheet(plan, room, columns, width, site_width).grid()


class _Sheet:
    """Works out the cells of one room."""

    def __init__(self, plan: Plan, room: str, columns: tuple[Column, ...], width: int, site_width: int) -> None:
        self.plan, self.room, self.columns = plan, room, columns
        self.width, self.site_width = width, site_width
        self.clock = Clock(plan.zone)
        self.steps = [step for step in plan.steps if step.room in (room, "")]
        self.held = held_in(plan, room)
        self.held_on = [[one for one in self.held if column.shows((one.surface,))] for column in columns]
        self.steps_on = [[step for step in self.steps if column.shows(step.surfaces)] for column in columns]
        self.shut = {self.clock.day(minute): name for minute, name in plan.closed_days.items()}

    def grid(self) -> Grid:
        rows: list[Row] = []
        for first, last in self._spans():
            rows.append(self._row(first, last, rows[-1] if rows else None))
        return Grid(self.room, self.plan.room_titles.get(self.room, self.room), self.columns, tuple(rows))

    def _spans(self) -> list[tuple[date, date]]:
        """Days from the start to the last of the work; days off that follow each other as one."""
        day = self.clock.day(min([self.plan.start, *(step.start for step in self.steps)]))
        last = self.clock.last_day(max([self.plan.finish, *(step.end for step in self.steps)]))
        spans: list[tuple[date, date]] = []
        while day <= last:
            if spans and self._off(day) and self._off(spans[-1][1]):
                spans[-1] = (spans[-1][0], day)
            else:
                spans.append((day, day))
            day += timedelta(days=1)
        return spans

    @cached_property
    def _worked(self) -> set[date]:
        pieces = [piece for step in self.steps for piece in step.pieces]
        return {day for start, end in pieces for day in self.clock.days(start, end)}

    def _off(self, day: date) -> bool:
        return day.weekday() >= 5 and day not in self._worked and day not in self.shut

    def _row(self, first: date, last: date, above: Row | None) -> Row:
        start, end = self.clock.midnight(first), self.clock.midnight(last + timedelta(days=1))
        working = [step for step in self.steps if any(a < end and b > start for a, b in step.pieces)]
        cells = tuple(
            self._cell(index, start, end, working, above.cells[index] if above else ())
            for index in range(len(self.columns))
        )
        off = self._off(first)
        name = self.shut.get(first) if not working else None
        room = self._works([step for step in working if not step.surfaces])
        handed_over = start <= self.plan.finish < end
        if handed_over and all(said.text != HAND_OVER for said in room):
            room = (*room, Said(HAND_OVER, "work"))
        on_site = self._people(working)
        if name is not None:
            room, on_site = (Said("shut", "quiet"),), (cut(name, self.site_width),)
        elif not working and not off and not handed_over:
            room, on_site = self._idle(first)
        return Row(first, last, start, end, off or name is not None, cells, room, on_site)

    def _idle(self, day: date) -> tuple[Cell, tuple[str, ...]]:
        """A working day without anybody: the room sets, or it is free."""
        noon = self.clock.noon(day)
        now = [one for one in self.held if one.key != "dries" and one.start <= noon < one.end]
        floor_shut = any(base(one.surface) == "floor" and one.key != "leave" for one in now)
        all_shut = all(any(column.shows((one.surface,)) for one in now) for column in self.columns)
        if now and (floor_shut or all_shut):
            return (Said("sets", "quiet"),), ("nobody",)
        return (Said("free", "quiet"),), ("nobody booked",)

    def _people(self, working: list[PlannedStep]) -> tuple[str, ...]:
        trades = ", ".join(dict.fromkeys(step.trade for step in working))
        return tuple(wrapped(trades, self.site_width)) if trades else ()

    def _works(self, working: list[PlannedStep]) -> Cell:
        said = [Said(self._label(step), "inspector" if step.kind == "hold" else "work") for step in working]
        if len(said) > MOST_LINES:
            said = [*said[: MOST_LINES - 1], Said(f"+{len(said) - MOST_LINES + 1} more", "work")]
        return tuple(said)

    def _label(self, step: PlannedStep) -> str:
        """The shortest honest words for a step: its title, else its name, else its recipe's name."""
        mark = MARKS["inspector"].sign + " " if step.kind == "hold" else ""
        title = in_words(step.title, self.plan.words)
        if len(mark + title) <= self.width:
            return mark + title
        if step.step not in THIN_NAMES:
            return self._short(mark + step.step)
        words = step.recipe.split("-")
        fits = (" ".join(words[skipped:]) for skipped in range(len(words)))
        return mark + next((said for said in fits if len(mark + said) <= self.width), words[-1])

    def _short(self, text: str) -> str:
        """The first words of a text that fit a cell; a first word that does not fit is cut."""
        words = text.split()
        fits = (" ".join(words[:count]) for count in range(len(words), 0, -1))
        return next((said for said in fits if len(said) <= self.width), cut(text, self.width))

    def _cell(self, column: int, start: Minute, end: Minute, working: list[PlannedStep], above: Cell) -> Cell:
        here = self.held_on[column]
        now = self._shown(here, start, end)
        working = [step for step in working if self.columns[column].shows(step.surfaces)]
        if working:
            return self._works(working) + self._shut_early(now, start, end)
        thin = self._off(self.clock.day(start)) or self.clock.day(start) in self.shut
        for step in self.steps_on[column]:
            if step.start < start and step.end > end and not thin:
                return (Said(f"({cut(self._label(step), self.width - 2)})", "paused"),)
        if now is not None:
            goes_on = bool(above) and above[-1].look == now.key
            return (Said(MARKS[now.key].sign, now.key) if goes_on else self._holds(now),)
        over = [one.end for one in here if start <= one.end < end]
        return (Said(self._free(max(over), start, end), "free"),) if over else ()

    def _shown(self, here: list[Held], start: Minute, end: Minute) -> Held | None:
        """What holds a surface as a day ends; where only the next layer waits by then, what closed it at noon."""
        at_end = worst(one for one in here if one.start < end <= one.end)
        if at_end is None or at_end.key != "dries":
            return at_end
        noon = self.clock.noon(self.clock.day(start))
        return worst(one for one in here if one is at_end or one.start <= noon < one.end)

    def _shut_early(self, now: Held | None, start: Minute, end: Minute) -> Cell:
        """A layer that closes the surface for the better part of its own day, or stands under water."""
        if now is None or now.key == "dries" or now.start < start:
            return ()
        if now.key != "water on" and now.start > self.clock.noon(self.clock.day(start)):
            return ()
        return (self._holds(now),)

    def _holds(self, now: Held) -> Said:
        return Said(self._short(f"{MARKS[now.key].sign} {now.how}"), now.key)

    def _free(self, minute: Minute, start: Minute, end: Minute) -> str:
        one_day = self.clock.last_day(end) == self.clock.day(start)
        return f"{MARKS['free'].sign} {self.clock.hour(minute) if one_day else weekday(self.clock.day(minute))}"


def today_row(grid: Grid, plan: Plan) -> int | None:
    """The row of the day the plan was made on, None if that day is not in the diary."""
    day = Clock(plan.zone).day(plan.as_of)
    return next((index for index, row in enumerate(grid.rows) if row.first <= day <= row.last), None)
