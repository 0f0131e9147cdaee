"""The next five working days, a day a paragraph, and what is coming up after them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from sequencer.answers.on_site.calls import Call
from sequencer.plan import Plan
from sequencer.views.as_json import document
from sequencer.views.clock import full, usual
from sequencer.views.lines import Section, laid_out, wrapped
from sequencer.views.on_site.call_words import call_words
from sequencer.views.on_site.days import FRIDAY, Day, nobody, who_comes
from sequencer.views.on_site.order_words import decision_words, order_words
from sequencer.views.on_site.today_json import call_as_json

WIDTH = 80
WORKING_DAYS = 5
COMING_UP = timedelta(weeks=2)
"""How far past its days the week looks ahead."""


def week(plan: Plan, on: date, calls: tuple[Call, ...], width: int = WIDTH) -> str:
    """The week as text."""
    days = days_of(plan, on)
    head = wrapped(f"{plan.title}. {usual(days[0].date)} to {usual(days[-1].date)}.", width)
    sections = [Section(full(day.date), tuple(who_comes(day)) or (nobody(day),)) for day in days]
    until = days[-1].end
    due = tuple(call_words(plan, call, days[0].start) for call in calls if call.by <= until)
    sections += [Section("call this week", due), Section("to be decided", tuple(decision_words(days[0], until)))]
    sections += [Section("order this week", tuple(order_words(days[0], until)))]
    sections += [Section("coming up", tuple(_coming_up(plan, days[-1])))]
    return "\n".join([*head, "", *laid_out([one for one in sections if one.texts], width)]) + "\n"


def week_as_json(plan: Plan, on: date, calls: tuple[Call, ...]) -> str:
    """The week as JSON: the steps of each day, and the calls whose last moment lies in it."""
    days = days_of(plan, on)
    time = days[0].clock.iso
    told = [
        {
            "day": day.date.isoformat(),
            "closed": plan.closed_days.get(day.start),
            "steps": [
                {"step": step.id, "trade": step.trade, "from": time(day.pieces(step)[0][0])} for step in day.working()
            ],
        }
        for day in days
    ]
    due = [call_as_json(call, time) for call in calls if call.by <= days[-1].end]
    return document("week", job=plan.job, zone=plan.zone, days=told, calls=due)


def days_of(plan: Plan, on: date) -> list[Day]:
    """Five working days from a date on, and every other day between them on which somebody works."""
    days: list[Day] = []
    day = Day(plan, on)
    count = 0
    while count < WORKING_DAYS:
        working = day.date.weekday() <= FRIDAY and day.start not in plan.closed_days
        count += working
        if working or day.working() or day.start in plan.closed_days and day.date.weekday() <= FRIDAY:
            days.append(day)
        day = day.after(1)
    return days


def _coming_up(plan: Plan, last: Day) -> Iterator[str]:
    """Visits, and what people in the house ask for, after the week."""
    clock, until = last.clock, last.clock.midnight(last.date + COMING_UP)
    for visit in plan.visits:
        if last.end <= visit.start < until:
            names = ", ".join(dict.fromkeys(plan.step(id).step for id in visit.steps))
            yield f"{clock.at(visit.start)}: {visit.trade}, {visit.state} ({names})"
    for name, at in sorted(plan.milestones.items(), key=lambda one: one[1]):
        if last.end <= at < until:
            yield f"{clock.at(at)}: {name}"
