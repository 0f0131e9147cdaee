"""What the surfaces of a room are doing on a day: worked on, keep off, leave it, free."""

from __future__ import annotations

from dataclasses import dataclass

from sequencer.terms.minute import Minute, Span
from sequencer.terms.words import MARKS
from sequencer.views.columns import columns_of
from sequencer.views.held import base, held_in, worst
from sequencer.views.on_site.days import Day
from sequencer.views.titles import title_of_id

UNFOLDED = 99


@dataclass(frozen=True)
class OnSurface:
    """A surface over part of a day. `state`: work, keep off, leave, dries, water on, free; `step`: whose doing."""

    surface: str
    state: str
    start: Minute
    end: Minute | None
    step: str | None = None


def on_surfaces(day: Day, room: str) -> list[OnSurface]:
    """Every surface of a room in the order of the diary, what it does that day in the order of the hours."""
    held = held_in(day.plan, room)
    found = []
    for column in columns_of(day.plan, room, UNFOLDED):
        mine = [step for step in day.working() if step.room == room and column.shows(step.surfaces)]
        works = [
            OnSurface(column.name, "work", start, end, step.id) for step in mine for start, end in day.pieces(step)
        ]
        here = [one for one in held if column.shows((one.surface,)) and one.start < day.end and one.end > day.opens]
        night = worst(one for one in here if one.end >= day.end)
        holds = [one for one in here if one.end < day.end] + [one for one in (night,) if one]
        waits = [OnSurface(column.name, one.key, one.start, one.end, one.step) for one in holds]
        free = [] if works or waits else [OnSurface(column.name, "free", day.start, None)]
        found += sorted([*works, *waits, *free], key=lambda one: (one.start, one.end or one.start))
    return found


def surfaces_said(day: Day, room: str) -> list[str]:
    """The surfaces of a room in sentences, those alike together; nothing is free behind a closed floor."""
    shut = floor_shut(day, room)
    said: dict[str, list[str]] = {}
    for name in dict.fromkeys(one.surface for one in on_surfaces(day, room)):
        parts = _parts(day, [one for one in on_surfaces(day, room) if one.surface == name], shut)
        said.setdefault("; then ".join(dict.fromkeys(parts)), []).append(name)
    return [f"{', '.join(names)}: {words}" for words, names in said.items()]


def floor_shut(day: Day, room: str) -> Minute | None:
    """Until when the room's floor is closed, if it is from the day's first minute and when work begins."""
    over = [
        one.end
        for one in held_in(day.plan, room)
        if base(one.surface) == "floor" and one.key == "keep off" and one.start <= day.start and one.end > day.opens
    ]
    return max(over, default=None)


def _parts(day: Day, ones: list[OnSurface], shut: Minute | None) -> list[str]:
    """What a surface does in the order of the hours; work of one trade that follows itself is told as one."""
    parts: list[str] = []
    work: list[OnSurface] = []
    for one in [*ones, None]:
        if work and (one is None or one.state != "work" or _trade(day, one) != _trade(day, work[0])):
            parts.append(f"{_trade(day, work[0])} {day.hours(_joined(work))}")
            work = []
        if one is not None and one.state == "work":
            work.append(one)
        elif one is not None:
            parts.append(_said(day, one, shut))
    return parts


def _trade(day: Day, one: OnSurface) -> str:
    return day.plan.step(one.step).trade if one.step else ""


def _joined(work: list[OnSurface]) -> list[Span]:
    spans: list[Span] = []
    for one in work:
        end = one.end or one.start
        if spans and spans[-1][1] >= one.start:
            spans[-1] = (spans[-1][0], max(end, spans[-1][1]))
        else:
            spans.append((one.start, end))
    return spans


def _said(day: Day, one: OnSurface, shut: Minute | None) -> str:
    if one.state == "free" or one.step is None or one.end is None:
        return "free" if shut is None else f"nobody gets in before {_until(day, shut)}, the floor is closed"
    since = f"from {day.clock.hour(one.start)} " if one.start > day.start else ""
    asks = MARKS[one.state].asks
    what = "water stands on it" if one.state == "water on" else title_of_id(day.plan, one.step)
    return f"{asks} {since}until {_until(day, one.end)} ({what})"


def _until(day: Day, moment: Minute) -> str:
    return day.clock.hour(moment) if moment < day.end else day.clock.at(moment)
