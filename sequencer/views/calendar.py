"""The whole plan as one calendar file (RFC 5545, 7986, 9253): work, waits, days to call and to order."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from icalendar import Calendar, Component, Event, Timezone, TimezoneDaylight, TimezoneStandard, vText

from sequencer.plan import Plan
from sequencer.terms.minute import Minute, utc
from sequencer.views.clock import Clock
from sequencer.views.entries import Entry, entries_of
from sequencer.views.zone_changes import Observance, observances

PRODUCT = "-//sequencer//site diary//EN"
ALL_JOBS = UUID("6f1c4c1e-8f0b-4d52-9a3e-5a0f7c1f2b64")
"""The namespace in which a job's name makes the namespace of its entries; drawn once at random."""

CONTROL = {code: None for code in range(32) if code != ord("\n")} | {127: None}


def calendar(*plans: Plan) -> bytes:
    """The file's octets, of one plan or of several jobs in one; the same plans give the same octets.

    ValueError if there is no entry.
    """
    jobs = [(plan, entries_of(plan)) for plan in plans]
    jobs = [(plan, entries) for plan, entries in jobs if entries]
    if not jobs:
        raise ValueError("a plan without steps makes no calendar")
    file = Calendar()
    file.add("prodid", PRODUCT)
    file.add("version", "2.0")
    file.add("calscale", "GREGORIAN")
    if sum(len(entries) for _, entries in jobs) > 1:
        for name in ("name", "x-wr-calname"):
            file.add(name, vText(_clean(" / ".join(plan.title for plan, _ in jobs))))
    made: list[Component] = []
    zones: dict[str, tuple[datetime, datetime]] = {}
    for plan, entries in jobs:
        events = _Events(plan, named=len(jobs) > 1)
        made += [events.event(entry) for entry in entries]
        if events.uses_zone:
            first, last = utc(min(entry.start for entry in entries)), events.last(entries)
            known = zones.get(plan.zone, (first, last))
            zones[plan.zone] = min(known[0], first), max(known[1], last)
    for name, (first, last) in zones.items():
        file.add_component(time_zone(name, first, last))
    for event in made:
        file.add_component(event)
    return bytes(file.to_ical(sorted=False))


def time_zone(name: str, first: datetime, last: datetime) -> Component:
    """The VTIMEZONE of a zone for times from `first` to `last`: rules where the zone follows rules, never RDATE."""
    zone = Timezone()
    zone.add("tzid", name)
    for observance in observances(ZoneInfo(name), first, last):
        zone.add_component(_observance(observance))
    return zone


def _observance(observance: Observance) -> Component:
    change = observance.first
    part = TimezoneDaylight() if change.after > change.before else TimezoneStandard()
    part.add("dtstart", change.local)
    if observance.month is not None:
        part.add("rrule", {"freq": "yearly", "bymonth": observance.month, "byday": observance.weekday})
    part.add("tzoffsetfrom", change.before)
    part.add("tzoffsetto", change.after)
    part.add("tzname", change.name)
    return part


class _Events:
    """Entries of one plan as events; `named`: with the job's title in front."""

    def __init__(self, plan: Plan, named: bool = False) -> None:
        self.title = f"{plan.title}: " if named else ""
        self.clock = Clock(plan.zone)
        self.job = uuid5(ALL_JOBS, plan.job)
        self.as_of = utc(plan.as_of)
        self.in_utc = plan.zone in ("UTC", "Etc/UTC")
        self.uses_zone = False

    def last(self, entries: list[Entry]) -> datetime:
        """The last moment of any entry."""
        return utc(max(entry.end for entry in entries))

    def uid(self, key: str) -> str:
        """The lasting name of an entry: it tells nothing of people, hosts or places."""
        return str(uuid5(self.job, key))

    def event(self, entry: Entry) -> Component:
        event = Event()
        event.add("uid", self.uid(entry.key))
        event.add("dtstamp", self.as_of)
        event.add("sequence", 0)
        for name, moment in zip(("dtstart", "dtend"), self._times(entry), strict=True):
            event.add(name, moment)
        event.add("summary", _clean(f"{self.title}{entry.summary}"))
        if entry.description:
            event.add("description", _clean("\n".join(entry.description)))
        if entry.categories:
            event.add("categories", [_clean(word) for word in entry.categories])
        if entry.status:
            event.add("status", entry.status)
        event.add("transp", "OPAQUE" if entry.busy else "TRANSPARENT")
        for relation in entry.relations:
            gap = {"GAP": _hours(relation.gap)} if relation.gap else {}
            event.add("related-to", self.uid(relation.key), parameters={"RELTYPE": relation.kind, **gap})
        return event

    def _times(self, entry: Entry) -> tuple[object, object]:
        if entry.all_day:
            first = self.clock.day(entry.start)
            return first, first + timedelta(days=1)
        moments = (self.clock.local(entry.start), self.clock.local(entry.end))
        if self.in_utc or any(_twice(moment) for moment in moments):
            return tuple(moment.astimezone(UTC) for moment in moments)  # type: ignore[return-value]
        self.uses_zone = True
        return moments


def _twice(local: datetime) -> bool:
    """True if the local clock shows this time twice that night."""
    return local.replace(fold=0).utcoffset() != local.replace(fold=1).utcoffset()


def _hours(minutes: Minute) -> str:
    """A stretch in exact hours and minutes, never in days, whose length the clocks may change."""
    hours, rest = divmod(minutes, 60)
    return "PT" + f"{hours}H" * (hours > 0) + f"{rest}M" * (rest > 0)


def _clean(text: str) -> str:
    return text.translate(CONTROL)
