"""A day on site: who comes, what may be touched, the last start of each layer, what to order, call and write down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from sequencer.answers.on_site.calls import Call
from sequencer.answers.on_site.house_today import LookIn, Off
from sequencer.answers.on_site.last_start import LastStart
from sequencer.answers.on_site.waiting_hour import Filler, WaitingHour
from sequencer.plan import Plan
from sequencer.views.clock import full, length
from sequencer.views.columns import rooms_of
from sequencer.views.lines import Section, laid_out, wrapped
from sequencer.views.on_site.call_words import call_words
from sequencer.views.on_site.days import Day, in_a_line, nobody, who_comes
from sequencer.views.on_site.last_start_words import last_start_words
from sequencer.views.on_site.measure_words import covered_by, ends_here, measure_words
from sequencer.views.on_site.order_words import decision_words, order_words
from sequencer.views.on_site.surfaces import surfaces_said
from sequencer.views.sentences import under_way_words
from sequencer.views.titles import plan_of_start_day, title_of, title_of_id

WIDTH = 80
LOOK_AHEAD = timedelta(days=4)
"""Calls and orders are told so long before their last moment: over a weekend at least."""


@dataclass(frozen=True)
class OnTheDay:
    """What was worked out for a day beside its plan."""

    last: tuple[LastStart, ...]
    waiting: tuple[WaitingHour, ...]
    calls: tuple[Call, ...]
    look_ins: tuple[LookIn, ...] = ()
    off: tuple[Off, ...] = ()


def today(plan: Plan, on: date, found: OnTheDay, width: int = WIDTH) -> str:
    """The day as text, every line within `width`."""
    day = Day(plan, on)
    first = (*plan_of_start_day(plan), f"{plan.title}. {full(on)}.")
    head = [line for text in first for line in wrapped(text, width)]
    sections = [section for section in sections_of(day, found) if section.texts]
    return "\n".join([*head, "", *laid_out(sections, width)]) + "\n"


def sections_of(day: Day, found: OnTheDay) -> Iterator[Section]:
    """The sections of a day, empty ones included."""
    plan, clock = day.plan, day.clock
    yield Section("who comes", tuple(who_comes(day)) or (nobody(day),))
    for room in rooms_of(plan):
        yield Section(plan.room_titles.get(room, room), tuple(surfaces_said(day, room)))
    yield Section("off in the house", tuple(off_words(day, one) for one in found.off))
    yield Section("last start today", tuple(last_start_words(plan, one) for one in found.last))
    running = tuple(
        f"{title_of_id(plan, one.step)}: {under_way_words(plan, clock, one)}" for one in plan.under_way
    )
    yield Section("setting and drying", running)
    yield Section("look in", tuple(_look_in(day, one) for one in found.look_ins))
    yield Section("waiting hours", tuple(_waiting(day, found.waiting)))
    yield Section("call", tuple(call_words(plan, call, day.start) for call in calls_due(day, found.calls)))
    until = day.clock.midnight(day.date + LOOK_AHEAD)
    yield Section("to be decided", tuple(decision_words(day, until)))
    yield Section("order and take in", tuple(order_words(day, until)))
    yield Section("measure", tuple(measure_words(day)))
    yield Section("write down", tuple(_records(day)))
    yield Section("tomorrow", (in_a_line(day.after(1)),))


def off_words(day: Day, one: Off) -> str:
    """house water 10:45 to 11:30 (Water off, supplies capped)"""
    hours = day.hours([span for span in one.spans if day.meets(*span)])
    return f"{one.service} {hours} ({title_of_id(day.plan, one.step)})"


def _look_in(day: Day, one: LookIn) -> str:
    since = f"from {day.clock.hour(one.start)} " if one.start > day.start else ""
    until = day.clock.hour(one.end) if one.end < day.end else day.clock.at(one.end)
    return f"{title_of_id(day.plan, one.step)}: every {length(one.every)}, {since}until {until}"


def calls_due(day: Day, calls: tuple[Call, ...]) -> list[Call]:
    """The calls whose last moment is near."""
    until = day.clock.midnight(day.date + LOOK_AHEAD)
    return [call for call in calls if call.by <= until]


def _waiting(day: Day, hours: tuple[WaitingHour, ...]) -> Iterator[str]:
    """What fills each waiting hour; those that nothing fills are told together."""
    for hour in hours:
        if hour.fillers:
            yield f"{day.hours([(hour.start, hour.end)])}: {'; '.join(_filler(day, one) for one in hour.fillers)}"
    idle = [(hour.start, hour.end) for hour in hours if not hour.fillers]
    if idle:
        yield f"{day.hours(idle)}: nothing on site can go in without moving something else"


def _filler(day: Day, one: Filler) -> str:
    title = title_of_id(day.plan, one.step)
    if one.whole:
        return f"{title} could be done, {day.hours([(one.start, one.end)])}"
    return f"{title} could be begun and left"


def _records(day: Day) -> Iterator[str]:
    """What is to be written down of the day's work, and what covers it; what is measured is told as such."""
    for step in day.working():
        if step.record and step.kind != "measure" and ends_here(day, step):
            first = covered_by(day, step)
            before = f", before {title_of(day.plan, first)} ({day.clock.at(first.start)})" if first else ""
            yield f"{title_of(day.plan, step)}: {', '.join(step.record)}{before}"
