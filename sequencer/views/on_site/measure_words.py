"""What is to be measured on a day: sizes and cable readings, layers that a meter lets go on, the air layers dry in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from sequencer.plan import PlannedStep, Ready
from sequencer.terms.practice import READ_BEFORE_COVERED
from sequencer.views.on_site.days import Day
from sequencer.views.titles import title_of, title_of_id
from sequencer.views.why_words import BY_THE_CLOCK

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True)
class ToMeasure:
    """Something to measure. `what`: in the recipe's words. `ready`: the wait that a reading ends, None: none.

    `before`: the first step that follows it, None if none does.
    """

    step: PlannedStep
    what: tuple[str, ...]
    ready: Ready | None
    before: PlannedStep | None


def to_measure(day: Day) -> Iterator[ToMeasure]:
    """The measuring steps that end that day, by their hour; then layers that are expected to be ready by the day after,
    until somebody goes on with them."""
    for step in day.working():
        if step.kind == "measure" and ends_here(day, step):
            yield ToMeasure(step, step.record, None, covered_by(day, step))
    soon = day.clock.midnight(day.date + 2 * ONE_DAY)
    for step in day.plan.steps:
        for ready in step.ready:
            if ready.law in READ_BEFORE_COVERED and step.end < day.end and ready.at < soon:
                waiting = [day.plan.step(id) for id in ready.listeners]
                first = min(waiting, key=lambda one: (one.start, one.id), default=None)
                if first is not None and first.start >= day.start:
                    yield ToMeasure(step, (), ready, first)


def unread_air(day: Day) -> dict[str, tuple[str, ...]]:
    """The rooms in which something sets or dries in air that nobody has read since it was laid, with its steps' ids."""
    rooms: dict[str, dict[str, None]] = {}
    for one in day.plan.under_way:
        step = day.plan.step(one.step)
        by_air = any(ready.purpose == one.purpose and ready.law != BY_THE_CLOCK for ready in step.ready)
        if by_air and not one.read and day.holds(day.plan.as_of):
            rooms.setdefault(step.room, {})[step.id] = None
    return {room: tuple(steps) for room, steps in rooms.items()}


def measure_words(day: Day) -> Iterator[str]:
    """What is to be measured, a sentence each."""
    for one in to_measure(day):
        before = f", before {title_of(day.plan, one.before)} ({day.clock.at(one.before.start)})" if one.before else ""
        title = title_of(day.plan, one.step)
        if one.ready is None:
            yield f"{title}{': ' if one.what else ''}{', '.join(one.what)}{before}"
        else:
            expected = f"expected ready for {one.ready.purpose} {day.clock.at(one.ready.at)}"
            yield f"{title}: {expected}; read it{before}: what is read counts, sooner or later"
    for room, steps in unread_air(day).items():
        titles = "; ".join(title_of_id(day.plan, id) for id in steps)
        yield f"air of {day.plan.room_titles.get(room, room)}, not read since: {titles}"


def ends_here(day: Day, step: PlannedStep) -> bool:
    """True if a step worked on that day is done by its end."""
    return day.pieces(step)[-1][1] == step.end


def covered_by(day: Day, step: PlannedStep) -> PlannedStep | None:
    """The first step that follows a step; None if none does."""
    covers = [one for one in day.plan.steps if any(after.id == step.id for after in one.after)]
    return min(covers, key=lambda one: (one.start, one.id), default=None)
