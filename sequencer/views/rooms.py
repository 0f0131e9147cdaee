"""Who is in which room on which day, and what is done there: the days of one or several jobs, room beside room."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sequencer.plan import Plan, PlannedStep
from sequencer.terms.words import MARKS, in_words
from sequencer.views.clock import Clock
from sequencer.views.columns import rooms_of
from sequencer.views.held import Held, base, held_in, worst
from sequencer.views.titles import title_of

FREE, HAND_OVER = "free", "handed over"


@dataclass(frozen=True)
class Work:
    """What somebody does in a room on a day, step by step, in few words and in full; `first` to `last`: the hours."""

    trade: str
    short: str
    titles: tuple[str, ...]
    first: str
    last: str


@dataclass(frozen=True)
class RoomDay:
    """A room on a day: the work in it, and what else is to say of it in words; nothing before and after the job."""

    works: tuple[Work, ...] = ()
    said: str = ""


@dataclass(frozen=True)
class RoomOfJob:
    """A room of a job with its days."""

    job: str
    room: str
    days: dict[date, RoomDay]


@dataclass(frozen=True)
class Days:
    """The days of all rooms, in order: runs of days off together. `off` says why nobody works, "" on other days."""

    rooms: tuple[RoomOfJob, ...]
    spans: tuple[tuple[date, date], ...]
    off: dict[date, str]


def days_of(plans: Sequence[Plan]) -> Days:
    """The rooms of all plans, from the first day anybody starts to the last hand-over."""
    rooms = tuple(RoomOfJob(plan.title, title, days) for plan in plans for title, days in _rooms(plan))
    first = min(Clock(plan.zone).day(plan.start) for plan in plans)
    last = max(max(room.days, default=first) for room in rooms)
    worked = {day for room in rooms for day, here in room.days.items() if here.works}
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    off = {day: _off(plans, day) for day in days if day not in worked and (day.weekday() >= 5 or _shut(plans, day))}
    return Days(rooms, tuple(_runs(days, off)), off)


def _off(plans: Sequence[Plan], day: date) -> str:
    return next((name for name in _shut(plans, day)), "weekend")


def _shut(plans: Sequence[Plan], day: date) -> list[str]:
    """Why a day is closed, where it is closed to all jobs."""
    found = [plan.closed_days.get(Clock(plan.zone).midnight(day)) for plan in plans]
    return [name for name in found if name] if all(found) else []


def _runs(days: list[date], off: dict[date, str]) -> Iterator[tuple[date, date]]:
    start = None
    for day in days:
        start = start or day
        next_off = off.get(day + timedelta(days=1))
        if day not in off or next_off is None or next_off != off[day]:
            yield start, day
            start = None


def _rooms(plan: Plan) -> Iterator[tuple[str, dict[date, RoomDay]]]:
    clock = Clock(plan.zone)
    over = clock.day(plan.finish)
    for room in rooms_of(plan):
        steps = [step for step in plan.steps if step.room == room]
        held = held_in(plan, room)
        begun = clock.day(min(step.start for step in steps))
        days = {day: _room_day(plan, clock, day, steps, held) for day in _days(begun, over)}
        yield plan.room_titles.get(room, room), days


def _days(first: date, last: date) -> Iterator[date]:
    for number in range((last - first).days + 1):
        yield first + timedelta(days=number)


def _room_day(
    plan: Plan, clock: Clock, day: date, steps: list[PlannedStep], held: tuple[Held, ...]
) -> RoomDay:
    start, end = clock.midnight(day), clock.midnight(day + timedelta(days=1))
    works: dict[str, list[PlannedStep]] = {}
    for step in steps:
        if any(a < end and b > start for a, b in step.pieces):
            works.setdefault(step.trade, []).append(step)
    over = clock.day(plan.finish) == day
    said = HAND_OVER if over else "" if works else _nobody(clock, start, end, held)
    return RoomDay(tuple(_work(plan, clock, trade, each, start, end) for trade, each in works.items()), said)


def _work(plan: Plan, clock: Clock, trade: str, steps: list[PlannedStep], start: int, end: int) -> Work:
    pieces = sorted((max(a, start), min(b, end)) for step in steps for a, b in step.pieces if a < end and b > start)
    titles = dict.fromkeys(title_of(plan, step) for step in steps)
    short = in_words(_short(steps), plan.words)
    return Work(trade, short, tuple(titles), clock.hour(pieces[0][0]), clock.hour(max(b for _, b in pieces)))


def _short(steps: list[PlannedStep]) -> str:
    """Recipe by recipe the names of the steps, with the part they are about."""
    names: dict[str, list[str]] = {}
    for step in steps:
        part = "".join(dict.fromkeys(f" {surface.split(', ', 1)[1]}" for surface in step.surfaces if ", " in surface))
        recipe = step.recipe.replace("-", " ")
        said = "" if step.step in recipe.split() else step.step
        names.setdefault(recipe, []).append(f"{said}{part}".strip())
    told = {recipe: ", ".join(filter(None, dict.fromkeys(each))) for recipe, each in names.items()}
    return "; ".join(f"{recipe} {each}".strip() for recipe, each in told.items())


def _nobody(clock: Clock, start: int, end: int, held: tuple[Held, ...]) -> str:
    """What a room is doing on a day nobody works in it: its floor is kept off, something stands, or it is free."""
    noon = (start + end) // 2
    now = [one for one in held if one.start <= noon < one.end]
    floor = worst(one for one in now if base(one.surface) == "floor" and one.key in ("keep off", "water on"))
    if floor is not None:
        return f"{floor.how}, {MARKS[floor.key].asks} until {clock.at_brief(floor.end)}"
    other = worst(now)
    return f"{base(other.surface)}: {other.how}" if other is not None else FREE
