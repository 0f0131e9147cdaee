"""The story of one cell of the diary: what happens, what is under it, why not sooner, what it holds up, free when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute
from sequencer.terms.words import FOLDED, MARKS
from sequencer.views.clock import Clock, length, usual
from sequencer.views.columns import Column
from sequencer.views.held import Held, held_in, worst
from sequencer.views.lines import Section, sentence
from sequencer.views.sentences import otherwise_words, ready_words, slip_words, why_not_sooner
from sequencer.views.titles import title_of

LAYERS_TOLD = 4
ROOM_COLUMN = Column("room", ())
"""The column of what touches no surface."""


@dataclass(frozen=True)
class Story:
    """A cell's story: its title, and its sections; the first says what happens and has no name."""

    title: str
    sections: tuple[Section, ...]


def story(plan: Plan, day: date, surface: str, room: str, last: date | None = None) -> Story:
    """What a room's surface (or a column several share, or "room") tells on a day, or on all days to `last`."""
    column = ROOM_COLUMN if surface == ROOM_COLUMN.name else Column(surface, FOLDED.get(surface, (surface,)))
    return _Teller(plan, room, column, day, last or day).story()


class _Teller:
    """Tells one cell."""

    def __init__(self, plan: Plan, room: str, column: Column, first: date, last: date) -> None:
        self.plan, self.room, self.column, self.first, self.last = plan, room, column, first, last
        self.clock = Clock(plan.zone)
        self.start = self.clock.midnight(first)
        self.end = self.clock.midnight(last + timedelta(days=1))
        self.here = [step for step in plan.steps if self._is_here(step)]
        self.working = [step for step in self.here if any(self._meets(a, b) for a, b in step.pieces)]
        self.sole: PlannedStep | None = None
        self.held = [one for one in held_in(plan, room) if column.shows((one.surface,)) or column is ROOM_COLUMN]

    def _is_here(self, step: PlannedStep) -> bool:
        if self.column is ROOM_COLUMN:
            return step.room in (self.room, "") and not step.surfaces
        return step.room == self.room and self.column.shows(step.surfaces)

    def _meets(self, start: Minute, end: Minute) -> bool:
        return start < self.end and end > self.start

    def story(self) -> Story:
        holding = [self.plan.step(id) for id in dict.fromkeys(one.step for one in self._holding())]
        following = next((step for step in self.here if step.start >= self.end), None)
        told = self.working or holding
        self.sole = told[0] if len(told) == 1 else None
        asked = told or [step for step in (following,) if step]
        sections = (
            Section("", tuple(self._what_happens(following))),
            Section("under it", tuple(self._under())),
            Section("why not sooner", tuple(self._reasons(asked))),
            Section("what it holds up", tuple(self._holds_up(told))),
            Section("free when", tuple(self._free_when(told))),
            Section("write down", tuple(self._titled(step, ", ".join(step.record)) for step in told)),
            Section("take care", tuple(dict.fromkeys(text for step in told for text in step.cautions))),
        )
        day = usual(self.first) if self.first == self.last else f"{usual(self.first)} to {usual(self.last)}"
        full = (Section(one.name, tuple(filter(None, one.texts))) for one in sections)
        return Story(f"{day}, {self.column.name}", tuple(one for one in full if one.texts))

    def _title(self, step: PlannedStep) -> str:
        return title_of(self.plan, step)

    def _titled(self, step: PlannedStep, text: str) -> str:
        """A sentence about a step, with its title where the story tells of several."""
        return f"{self._title(step)}: {text}" if text and step is not self.sole else text

    def _holding(self) -> list[Held]:
        return [one for one in self.held if self._meets(one.start, one.end)]

    def _what_happens(self, following: PlannedStep | None) -> list[str]:
        said = [self._work(step) for step in self.working]
        if self.column is ROOM_COLUMN:
            names = [self.plan.closed_days.get(self.start)]
            said += [f"Nobody may work: {name}." for name in names if name]
            if self._is_hand_over():
                said.append(f"Hand-over: {self.clock.hour(self.plan.finish)}")
        now = worst(one for one in self.held if one.start < self.end <= one.end)
        if now is not None:
            said.append(self._holds(now))
        else:
            over = [one for one in self.held if self.start <= one.end < self.end]
            latest = max(over, key=lambda one: one.end, default=None)
            if latest is not None:
                said.append(sentence(f"{MARKS['free'].asks} from {self.clock.at(latest.end)}"))
        if not said:
            said.append("Free; nobody works on it." if self._anybody() else "Free, nobody booked.")
        if not self.working and following is not None:
            said.append(f"Next here: {self._title(following)}, {following.trade}, {self.clock.at(following.start)}")
        return said

    def _anybody(self) -> bool:
        """True if somebody works in the room that day."""
        in_room = [step for step in self.plan.steps if step.room == self.room]
        return any(self._meets(start, end) for step in in_room for start, end in step.pieces)

    def _work(self, step: PlannedStep) -> str:
        pieces = [(a, b) for a, b in step.pieces if self._meets(a, b)]
        days = [day for a, b in step.pieces for day in self.clock.days(a, b)]
        days = list(dict.fromkeys(days))
        number = next(index for index, day in enumerate(days, 1) if day >= self.first)
        part = f", day {number} of {len(days)}" if len(days) > 1 else ""
        hours = ", ".join(f"{self.clock.hour(a)} to {self.clock.hour(b)}" for a, b in pieces)
        state = "" if step.state == "planned" else f" [{step.state}]"
        return f"{self._title(step)}: {step.trade}, {hours}{part}{state}"

    def _holds(self, now: Held) -> str:
        step = self.plan.step(now.step)
        working = f" ({now.working})" if now.working else ""
        taken = length(now.end - now.start)
        return f"{self._title(step)}: {now.how} {taken}, until {self.clock.at(now.end)}; {now.asks}{working}"

    def _under(self) -> list[str]:
        if self.column is ROOM_COLUMN:
            return []
        done = [step for step in self.here if step.end <= self.start and step.kind == "work"]
        return [
            f"{self._title(step)}, {usual(self.clock.last_day(step.end))}" for step in done[::-1][:LAYERS_TOLD]
        ]

    def _holds_up(self, told: list[PlannedStep]) -> list[str]:
        ids = {step.id for step in told}
        waiting = [step for step in self.plan.steps if any(after.id in ids for after in step.after)]
        slips = [self._titled(step, slip_words(step)) for step in told]
        return [f"{self._title(step)}, {step.trade}, {self.clock.at(step.start)}" for step in waiting] + slips

    def _reasons(self, asked: list[PlannedStep]) -> list[str]:
        said = [self._titled(step, why_not_sooner(self.plan, step.waited_for)) for step in asked]
        if self._is_hand_over():
            said.append(why_not_sooner(self.plan, self.plan.finish_waited_for))
        return said

    def _is_hand_over(self) -> bool:
        return self.column is ROOM_COLUMN and self.start <= self.plan.finish < self.end

    def _free_when(self, told: list[PlannedStep]) -> list[str]:
        closings = [
            f"{one.surface}: {one.asks} until {self.clock.at(one.end)}"
            for one in self.held
            if one.key != "dries" and one.step in {step.id for step in told}
        ]
        waits = [self._titled(step, ready_words(self.plan, self.clock, one)) for step in told for one in step.ready]
        otherwise = [self._titled(step, text) for step in told for text in otherwise_words(self.plan, step)]
        return closings + waits + otherwise
