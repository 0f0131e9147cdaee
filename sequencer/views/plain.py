"""The diary in linear sentences, without a table: for ears, for pipes, for terminals that cannot draw."""

from __future__ import annotations

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute
from sequencer.terms.words import MARKS
from sequencer.views.clock import Clock, full, usual
from sequencer.views.columns import columns_of, rooms_of
from sequencer.views.foot import foot_of
from sequencer.views.grid import Grid, Row, grid_of
from sequencer.views.held import Held, base, held_in, worst
from sequencer.views.lines import laid_out, wrapped
from sequencer.views.titles import plan_of_start_day, title_of

WIDTH = 80
UNFOLDED = 99


def plain_diary(plan: Plan, width: int = WIDTH) -> str:
    """Every day of every room as sentences, then the foot, wrapped at `width`."""
    finish = Clock(plan.zone).at(plan.finish)
    first = (*plan_of_start_day(plan), f"{plan.title}. Hand over {finish}.")
    lines = [line for text in first for line in wrapped(text, width)]
    for room in rooms_of(plan):
        lines += ["", *_Sentences(plan, room, width).lines()]
    return "\n".join([*lines, "", *laid_out(foot_of(plan), width)]) + "\n"


class _Sentences:
    """The days of one room, told."""

    def __init__(self, plan: Plan, room: str, width: int) -> None:
        self.plan, self.room, self.width = plan, room, width
        self.clock = Clock(plan.zone)
        self.held = held_in(plan, room)
        self.steps = [step for step in plan.steps if step.room in (room, "")]
        self.grid: Grid = grid_of(plan, room, columns_of(plan, room, UNFOLDED), width, width)

    def lines(self) -> list[str]:
        air = self.plan.air_words.get(self.room, "")
        told = wrapped(f"{self.grid.title}. {air}".rstrip(), self.width)
        for row in self.grid.rows:
            told += ["", *self._day(row)]
        return told

    def _day(self, row: Row) -> list[str]:
        day = full(row.first) if row.first == row.last else f"{full(row.first)} to {full(row.last)}"
        working = [step for step in self.steps if self._pieces(step, row)]
        lines = wrapped(f"{day}. {self._who(row, working)}", self.width)
        for step in working:
            lines += wrapped(self._work(step, row), self.width, "  ", "    ")
            for caution in step.cautions * (step.start >= row.start):
                lines += wrapped(f"Take care: {caution}.", self.width, "    ", "      ")
        free = []
        holds: dict[str, list[str]] = {}
        for column in self.grid.columns:
            now = worst(one for one in self.held if one.start < row.end <= one.end and column.shows((one.surface,)))
            if now is not None:
                holds.setdefault(self._holds(now), []).append(column.name)
            elif not any(column.shows(step.surfaces) for step in working):
                free.append(self._free(column.name, row))
        shut = self._floor_shut(row)
        if shut is not None:
            free = []
            closed = f"The way in is closed: nothing else here before {self.clock.at(shut.end)}."
            lines += wrapped(closed, self.width, "  ")
        for said, surfaces in holds.items():
            lines += wrapped(f"{', '.join(surfaces)}: {said}", self.width, "  ", "    ")
        if free and not row.thin:
            lines += wrapped(f"free: {', '.join(free)}.", self.width, "  ", "    ")
        return lines

    def _floor_shut(self, row: Row) -> Held | None:
        """The layer that keeps everybody off the room's floor to the end of a day; None if people can get in."""
        return worst(
            one
            for one in self.held
            if base(one.surface) == "floor" and one.key == "keep off" and one.start < row.end <= one.end
        )

    def _who(self, row: Row, working: list[PlannedStep]) -> str:
        if row.start <= self.plan.finish < row.end:
            return f"Hand-over {self.clock.hour(self.plan.finish)}. {self._on_site(working)}".rstrip()
        if working:
            return self._on_site(working)
        if row.thin:
            return f"Nobody may work: {row.on_site[0]}." if row.room else "Nobody works."
        sets = row.room[0].text == "sets"
        return "Nobody on site: the room sets." if sets else "Free, nobody booked."

    def _on_site(self, working: list[PlannedStep]) -> str:
        return f"On site: {', '.join(dict.fromkeys(step.trade for step in working))}." if working else ""

    def _pieces(self, step: PlannedStep, row: Row) -> list[tuple[Minute, Minute]]:
        return [(start, end) for start, end in step.pieces if start < row.end and end > row.start]

    def _work(self, step: PlannedStep, row: Row) -> str:
        where = ", ".join(dict.fromkeys(map(base, step.surfaces))) or "room"
        title = title_of(self.plan, step)
        pieces = self._pieces(step, row)
        hours = ", ".join(f"{self.clock.hour(start)} to {self.clock.hour(end)}" for start, end in pieces)
        hold = " Nothing covers it before it passes." if step.kind == "hold" else ""
        return f"{where}: {title} ({step.trade}, {hours}).{hold}"

    def _holds(self, now: Held) -> str:
        return f"{now.how} until {self.clock.at(now.end)}; {MARKS[now.key].asks}."

    def _free(self, name: str, row: Row) -> str:
        over = [
            one.end
            for one in self.held
            if row.start <= one.end < row.end
            and (base(one.surface) == name or (base(one.surface) == "floor" and one.key == "keep off"))
        ]
        if not over:
            return name
        end = max(over)
        return f"{name} from {self.clock.hour(end) if row.first == row.last else usual(self.clock.day(end))}"
