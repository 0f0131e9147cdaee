"""A local day of a plan: its bounds, who works in it, in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.minute import Minute, Span
from sequencer.views.clock import Clock
from sequencer.views.titles import title_of


@dataclass(frozen=True)
class Day:
    """A local date of a plan, from its midnight to the next."""

    plan: Plan
    date: date

    @property
    def clock(self) -> Clock:
        return Clock(self.plan.zone)

    @property
    def start(self) -> Minute:
        return self.clock.midnight(self.date)

    @property
    def end(self) -> Minute:
        return self.clock.midnight(self.date + timedelta(days=1))

    @property
    def opens(self) -> Minute:
        """The first hour of work that day; its midnight, if nobody works."""
        return min((self.pieces(step)[0][0] for step in self.working()), default=self.start)

    def after(self, days: int) -> Day:
        """So many days later."""
        return Day(self.plan, self.date + timedelta(days=days))

    def meets(self, start: Minute, end: Minute) -> bool:
        return start < self.end and end > self.start

    def holds(self, moment: Minute) -> bool:
        return self.start <= moment < self.end

    def pieces(self, step: PlannedStep) -> list[Span]:
        """The spans of a step's work that lie in the day."""
        return [(start, end) for start, end in step.pieces if self.meets(start, end)]

    def working(self) -> list[PlannedStep]:
        """The steps worked on that day, by their hour."""
        here = [(pieces[0], step) for step in self.plan.steps if (pieces := self.pieces(step))]
        return [step for _, step in sorted(here, key=lambda one: (one[0], one[1].id))]

    def hours(self, spans: Sequence[Span]) -> str:
        """08:15 to 12:00, 12:30 to 14:00"""
        return ", ".join(f"{self.clock.hour(start)} to {self.clock.hour(end)}" for start, end in spans)


def who_comes(day: Day) -> list[str]:
    """A sentence for each trade that works that day: from when to when, what, how far it is arranged; and hand-over."""
    states = {id: visit.state for visit in day.plan.visits for id in visit.steps}
    by_trade: dict[str, list[PlannedStep]] = {}
    for step in day.working():
        by_trade.setdefault(step.trade, []).append(step)
    said = []
    for trade, steps in by_trade.items():
        spans = sorted(span for step in steps for span in day.pieces(step))
        hours = f"{day.clock.hour(spans[0][0])} to {day.clock.hour(max(end for _, end in spans))}"
        state = states.get(steps[0].id, "")
        titles = "; ".join(title_of(day.plan, step) for step in steps)
        said.append(f"{trade}, {hours}{f', {state}' if state else ''}: {titles}")
    return [*said, f"hand-over, {day.clock.hour(day.plan.finish)}"] if day.holds(day.plan.finish) else said


def nobody(day: Day) -> str:
    """What a day without work is."""
    closed = day.plan.closed_days.get(day.start)
    if closed:
        return f"nobody may work: {closed}"
    return "nobody works" if day.date.weekday() > FRIDAY else "nobody is booked"


FRIDAY = 4


def in_a_line(day: Day) -> str:
    """The day in one line: each trade with its first hour and its steps' short names."""
    said: dict[str, list[str]] = {}
    for step in day.working():
        first = f"{step.trade} {day.clock.hour(day.pieces(step)[0][0])}"
        known = next((key for key in said if key.split(" ")[0] == first.split(" ")[0]), first)
        said.setdefault(known, []).append(step.step)
    words = "; ".join(f"{who} ({', '.join(dict.fromkeys(names))})" for who, names in said.items())
    if day.holds(day.plan.finish):
        words = f"{words}{'; ' if words else ''}hand-over {day.clock.hour(day.plan.finish)}"
    return words or nobody(day)
