"""The rooms day by day as a table of words: days run down, rooms stand side by side, as many as a line has room for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from sequencer.plan import Plan
from sequencer.views.clock import MONTHS, Clock, full, weekday
from sequencer.views.lines import Line, cut, page, plain_line, sentence, wrapped
from sequencer.views.promises import promise_lines
from sequencer.views.rooms import Days, RoomDay, RoomOfJob, Work, days_of

WIDTH = 80
DAY_WIDTH = 10
NARROWEST = 22
"""A table is folded into several, one under the other, while its columns would be narrower than this [characters]."""


def rooms_page(plans: Sequence[Plan], width: int = WIDTH) -> str:
    """The page: hand-over of each job, then the rooms day by day."""
    return page(rooms_lines(plans, width))


def rooms_lines(plans: Sequence[Plan], width: int = WIDTH) -> list[Line]:
    """The page as lines of pieces."""
    days = days_of(plans)
    lines = [plain_line(text, "head") for text in promise_lines(plans, width)]
    most = max(1, (width - DAY_WIDTH) // NARROWEST)
    tables = -(-len(days.rooms) // most)
    each = -(-len(days.rooms) // tables)
    today = {Clock(plan.zone).day(plan.as_of) for plan in plans}
    for first in range(0, len(days.rooms), each):
        lines += [plain_line(""), *_table(days, days.rooms[first : first + each], width, today)]
    return lines


def _table(days: Days, rooms: Sequence[RoomOfJob], width: int, today: set[date]) -> list[Line]:
    wide = (width - DAY_WIDTH) // len(rooms) - 1
    month = MONTHS[days.spans[0][0].month - 1]
    several = len({room.job for room in days.rooms}) > 1
    lines = [plain_line(_row("", [room.job for room in rooms], wide), "head")] if several else []
    lines.append(plain_line(_row(f" {month}", [room.room for room in rooms], wide), "head"))
    lines.append(plain_line("-" * DAY_WIDTH + ("+" + "-" * wide) * len(rooms), "quiet"))
    for first, _ in days.spans:
        if first in days.off:
            name = days.off[first]
            said = "" if name == "weekend" else name
            lines.append(plain_line(_row(f" {_day(first) if said else '- -'}", [said] * bool(said), wide), "quiet"))
            continue
        cells = [_cell(room.days.get(first, RoomDay()), wide - 1) for room in rooms]
        for number in range(max(1, *map(len, cells))):
            mark = ">" if first in today and not number else " "
            texts = [cell[number] if number < len(cell) else "" for cell in cells]
            lines.append(plain_line(_row(f"{mark}{_day(first) if not number else ''}", texts, wide)))
    return lines


def _row(day: str, texts: list[str], wide: int) -> str:
    return f"{day:{DAY_WIDTH}}" + "".join(f"|{' ' + cut(text, wide - 1):{wide}}" for text in texts)


def _day(day: date) -> str:
    return f"{weekday(day)} 1 {MONTHS[day.month - 1][:3]}" if day.day == 1 else f"{weekday(day)} {day.day}"


def _cell(here: RoomDay, wide: int) -> list[str]:
    texts = [f"{work.trade}: {work.short}" for work in here.works]
    texts += [here.said] if here.said else []
    return [line for text in texts for line in wrapped(text, wide, "", "  ")]


def rooms_plain(plans: Sequence[Plan], width: int = WIDTH) -> str:
    """The same in sentences, without a table."""
    days = days_of(plans)
    several = len({room.job for room in days.rooms}) > 1
    lines = promise_lines(plans, width)
    for first, last in days.spans:
        if first in days.off:
            span = full(first) if first == last else f"{full(first)} to {full(last)}"
            lines += ["", *wrapped(f"{span}. Nobody works: {days.off[first]}.", width)]
            continue
        lines += ["", f"{full(first)}."]
        for room in days.rooms:
            here = room.days.get(first)
            name = f"{room.job}, {room.room}" if several else sentence(room.room)
            if here is not None:
                lines += wrapped(f"{name}: {_told(here)}.", width, "  ", "    ")
    return "\n".join(lines) + "\n"


def _told(here: RoomDay) -> str:
    return ". ".join([*(map(_work, here.works)), *([here.said] if here.said else [])])


def _work(work: Work) -> str:
    return f"{work.trade}, {work.first} to {work.last}, {'; '.join(work.titles)}"
