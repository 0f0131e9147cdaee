"""What the house asks for, from its words to spans of the calendar."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sequencer.files.calendar_days import ONE, Calendar, days_between
from sequencer.files.house_text import WeekHours
from sequencer.files.job_model import HouseModel
from sequencer.files.tree import Table, Tree
from sequencer.files.wrong import listed
from sequencer.terms.house import House
from sequencer.terms.minute import Span
from sequencer.terms.place import Place
from sequencer.terms.practice import NIGHT

Months = tuple[date, date]
"""The first day of the job and the first after its calendars."""


def house_of(model: HouseModel | None, node: Tree | None, place: Place, calendar: Calendar, days: Months) -> House:
    """The house of a job; `node`: what stands under `house:`. Absences of the toilet are not known yet."""
    model = model or HouseModel()
    off = {"house water": model.water_off, "house drain": model.drain_off, "house power": model.power_off}
    lift = model.lift
    return House(
        lived_in=bool(model.people_live_here),
        noise=_spans(model.noise, calendar, days),
        noise_words=_words(model.noise),
        services={service: minutes for service, minutes in off.items() if minutes is not None},
        place=place if node is not None else None,
        access=_spans(model.access, calendar, days),
        access_words=_words(model.access),
        lift=None if lift is None else tuple(
            sorted((calendar.minute(one.day, one.first), calendar.minute(one.day, one.last)) for one in lift)
        ),
        fumes_gone=tuple(_nights(calendar, days, model.fumes)) if model.fumes is not None else (),
        fumes_words=_clock(model.fumes or 0),
        nights=tuple(_nights(calendar, days, NIGHT[0])),
        places={str(key): key.place for key in node.texts()} if isinstance(node, Table) else {},
    )  # fmt: skip


def _spans(hours: tuple[WeekHours, ...] | None, calendar: Calendar, days: Months) -> tuple[Span, ...] | None:
    """Spans in order, those that touch or overlap joined."""
    if hours is None:
        return None
    found: list[Span] = []
    for day in days_between(*days):
        today = sorted((one.first, one.last) for one in hours if day.weekday() in one.days)
        for first, last in today:
            start, end = calendar.minute(day, first), calendar.minute(day, last)
            if found and start <= found[-1][1]:
                found[-1] = (found[-1][0], max(found[-1][1], end))
            else:
                found.append((start, end))
    return tuple(found)


def _words(hours: tuple[WeekHours, ...] | None) -> str:
    return listed(one.words for one in hours or ())


def _clock(minutes: int) -> str:
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _nights(calendar: Calendar, days: Months, evening: int) -> Iterator[Span]:
    """From an hour of each evening [min after midnight] to the morning."""
    first, out = days
    for day in days_between(first - ONE, out):
        yield calendar.minute(day, evening), calendar.minute(day + ONE, NIGHT[1])
