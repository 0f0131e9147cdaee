"""A folder of files, from bytes to a Job with everything met and checked."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

from sequencer.files.air_reader import AirReader
from sequencer.files.assumed import assumed
from sequencer.files.book import Book, book_beside, read_book
from sequencer.files.book_meet import with_book
from sequencer.files.cables import cable_faults
from sequencer.files.calendar_days import Calendar, days_between
from sequencer.files.changes import use_of
from sequencer.files.check_job import job_faults
from sequencer.files.decisions import decision_of, hanging, with_must_haves
from sequencer.files.expand import steps_of
from sequencer.files.holidays_text import holidays_between
from sequencer.files.house import house_of
from sequencer.files.job_texts import HORIZON
from sequencer.files.measured import with_readings
from sequencer.files.orders import booking_of, doubled, order_of
from sequencer.files.people import AT_HOME, hours_faults, merged, trade_of
from sequencer.files.rooms import room_of, way_faults
from sequencer.files.toilet import with_absences
from sequencer.files.told import FOLDER, read_told
from sequencer.files.uses import Use
from sequencer.files.written import Written, read_written
from sequencer.terms.arranged import Booking, Choice, Decision, Order
from sequencer.terms.goal import PREFERENCES
from sequencer.terms.job import Job, Trade
from sequencer.terms.minute import Minute
from sequencer.terms.place import Fault, Faulty
from sequencer.terms.told import Told
from sequencer.terms.words import CLIENT, OWN_TRADE


def read_job(path: Path, today: date | None = None, said: str | None = None, new_recipes: bool = False) -> Job:
    """The job of a folder, or of a job file. `today`: the day it is planned from, by default that of the place's clock;
    the plan starts no later than the job's start day. `said`: the text of the job file, where it is not written yet.
    `new_recipes`: with recipe texts as they stand, not as they were when people were told a plan.
    Raises Faulty with every fault of every file.
    """
    faults: list[Fault] = []
    written = read_written(path, faults, said)
    if written is None:
        raise Faulty(faults, more=True)
    told = _told(written, new_recipes, faults)
    build = _Build(written, today, faults)
    job = _with_told(build.job(), told)
    book = _book(written, faults)
    if not faults:
        job = with_book(job, book, faults)
    if faults:
        raise Faulty(faults, more=not (written.whole and build.whole))
    return job


def _told(written: Written, new_recipes: bool, faults: list[Fault]) -> Told | None:
    """What people were told; the job's library keeps to the recipe texts it was made from."""
    job = written.job.job
    try:
        kept = read_told(written.folder, job)
        if kept is None or new_recipes:
            return kept.told if kept is not None else None
        changed = written.library.keep_to(kept.texts, lambda name: f"{FOLDER}/{job}/{kept.files[name]}")
        return replace(kept.told, recipes_kept=changed)
    except Faulty as faulty:
        faults.extend(faulty.faults)
        return None


def _with_told(job: Job, told: Told | None) -> Job:
    if told is None:
        return job
    used = tuple(kept for kept in told.recipes_kept if kept[0] in job.recipes)
    return replace(job, told=replace(told, recipes_kept=used))


def _book(written: Written, faults: list[Fault]) -> Book:
    try:
        return read_book(book_beside(written.folder / written.file), written.job.place.zone)
    except Faulty as faulty:
        faults.extend(faulty.faults)
        return Book()


class _Build:
    """Makes the Job; all that does not meet goes to `faults`."""

    def __init__(self, written: Written, today: date | None, faults: list[Fault]) -> None:
        self.written = written
        self.model = written.job
        self.faults = faults
        self.whole = True
        zone = self.model.place.zone
        self.start = self.model.start
        self.read_on = today or datetime.now(zone).date()
        self.today = min(self.read_on, self.start)
        self.horizon = self.start + HORIZON
        ordered = (order.ordered for order in (self.model.orders or {}).values())
        decided = (decision.decided for decision in (self.model.decisions or {}).values())
        earliest = min([self.today, *(day for day in (*ordered, *decided) if day)])
        holidays = holidays_between(self.model.place.holidays, earliest - timedelta(days=60), self.horizon + HORIZON)
        closed = {day: "closed" for first, out in self.model.closed or () for day in days_between(first, out)}
        self.calendar = Calendar(zone, holidays, closed)

    def job(self) -> Job:
        model, calendar, faults = self.model, self.calendar, self.faults
        uses = self._uses()
        self.whole = all(use.recipe is not None for use in uses)
        trades = self._trades(uses)
        air = AirReader(self.written.folder, calendar, self.start, self.horizon, uses, faults)
        rooms = {
            name: room_of(name, room, self.written.place("rooms", name), air.said(name, room.air, model.air))
            for name, room in model.rooms.items()
        }
        faults.extend(way_faults(dict(model.rooms)))
        faults.extend(cable_faults(uses, rooms, dict(model.rooms)))
        steps = {step.id: step for step in steps_of(uses, rooms, faults)}
        steps = with_readings(steps, model.measured or (), uses, calendar, self.read_on, faults)
        decisions = self._decisions(uses, trades)
        orders = self._orders(uses, decisions)
        asked = [each for each in model.booked or () if each.trade not in self.written.unread]
        booked = [booking_of(each, uses, steps, trades, calendar, faults) for each in asked]
        bookings: list[Booking] = [booking for booking in booked if booking is not None]
        faults.extend(doubled(bookings))
        span = (self.start, self.horizon)
        days = list(days_between(*span))
        job = Job(
            name=model.job,
            title=model.title or model.job,
            place=self.written.place("job"),
            zone=model.place.zone.key,
            start=calendar.midnight(self.start),
            now=calendar.midnight(self.today),
            horizon=calendar.midnight(self.horizon),
            promise=calendar.midnight(model.promise + timedelta(days=1)) if model.promise is not None else None,
            half_days=tuple(half for day in days for half in (calendar.midnight(day), calendar.minute(day, 720))),
            working_days=tuple(
                calendar.span(day) for day in days_between(self.today, self.horizon) if calendar.is_working(day)
            ),
            closed_days=self._closed_days(),
            rooms=tuple(rooms.values()),
            trades=trades,
            steps=tuple(steps.values()),
            recipes={use.recipe.name: use.recipe for use in reversed(uses) if use.recipe is not None},
            hand_over_needs=model.hand_over_needs or (),
            orders=tuple(orders),
            decisions=tuple(decision for decision in decisions.values() if decision is not None),
            bookings=tuple(bookings),
            house=house_of(model.house, self.written.table.get("house"), self.written.place("house"), calendar, span),
            words=model.words or "US",
            assumed=assumed(model, uses),
            today=calendar.midnight(self.read_on),
            choices=tuple(choice for use in uses if (choice := _choice(use)) is not None),
            prefer=tuple(dict.fromkeys((*(each.word for each in model.prefer or ()), *PREFERENCES))),
        )
        if model.house is not None and model.house.only_toilet is not None:
            job = with_absences(job, model.house.only_toilet.nights, faults)
        faults.extend(job_faults(job, uses, self.written.library, model, self.written.table, self.written.unread))
        faults.extend(self.written.library.faults)
        return job

    def _decisions(self, uses: list[Use], trades: dict[str, Trade]) -> dict[str, Decision | None]:
        place = self.written.place
        found: dict[str, Decision | None] = dict.fromkeys(self.written.keys("decisions"))
        for name, model in (self.model.decisions or {}).items():
            where = place("decisions", name)
            found[name] = decision_of(name, model, where, uses, trades, self.calendar, self.today, self.faults)
        return found

    def _orders(self, uses: list[Use], decisions: dict[str, Decision | None]) -> list[Order]:
        found: dict[str, Order | None] = dict.fromkeys(self.written.keys("orders"))
        for name, model in (self.model.orders or {}).items():
            place = self.written.place("orders", name)
            order = order_of(name, model, place, uses, self.calendar, self.today, self.faults)
            if order is not None and model.once_decided is not None:
                order = hanging(order, model.once_decided, decisions, self.calendar, self.faults)
            found[name] = order
        return with_must_haves(found, self.model.must_haves or {}, uses, self.faults)

    def _closed_days(self) -> dict[Minute, str]:
        named = {**self.calendar.holidays, **self.calendar.closed}
        return {
            self.calendar.midnight(day): named[day] for day in days_between(self.today, self.horizon) if day in named
        }

    def _trades(self, uses: list[Use]) -> dict[str, Trade]:
        own = self.model.people or {}
        asked = any(step.trade == CLIENT for use in uses if use.recipe is not None for step in use.recipe.steps)
        names = dict.fromkeys((*self.written.people, *own, OWN_TRADE, *([CLIENT] if asked else [])))
        trades = {}
        for name in names:
            person = merged(self.written.people.get(name), own.get(name))
            if name == CLIENT:
                person = merged(AT_HOME, person)
            place = self.written.people_places.get(name) or self.written.place("job")
            if name in own:
                place = self.written.place("people", name)
            trade = trade_of(name, person, place, self.calendar, self.today, self.start, self.horizon)
            self.faults.extend(hours_faults(name, person, trade))
            trades[name] = trade
        return trades

    def _uses(self) -> list[Use]:
        place = self.written.place
        return [
            use_of(room, name, use, place("rooms", room, "recipes", name), self.written.library, self.faults)
            for room, model in self.model.rooms.items()
            for name, use in model.recipes.items()
        ]


def _choice(use: Use) -> Choice | None:
    if use.recipe is None or not use.recipe.ways:
        return None
    used = use.model.use.word if use.model.use is not None else None
    return Choice(use.room, use.name, use.recipe.name, use.recipe.ways, used, use.place)
