"""The calendar file: octets against the standards, and real readers against the plan."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from io import StringIO
from zoneinfo import ZoneInfo

import icalendar
import pytest
import recurring_ical_events
import vobject
from dateutil.tz import tzical
from hypothesis import given, settings
from hypothesis import strategies as st
from ics_octets import Part, conforms, gap, read, span
from plans import B, orchard_row, spans, step, t, two_rooms

from sequencer.plan import Plan
from sequencer.terms.minute import utc
from sequencer.views.calendar import calendar, time_zone
from sequencer.views.entries import entries_of

SUMMARIES = {
    "Second coat (you)": ("13 March 14:45", "13 March 16:00"),
    "Rough-in seen (inspector)": ("9 March 09:00", "9 March 15:00"),
    "Wait: floor; Floor levelled (dries)": ("6 March 16:00", "9 March 02:00"),
    "Keep off: floor; Floor tile laid (sets)": ("20 March 16:00", "21 March 21:00"),
    "Nobody steps in: floor, wet walls; Drain plugged, filled to the mark (water on)": (
        "16 March 08:30",
        "17 March 15:30",
    ),
    "Not yet for a hot shower: Haze polished off": ("23 March 12:15", "20 April 12:15"),
}
"""What the plan says, by the words of the entry; the wait of the floor crosses the change of the clocks on 8 March."""


def plan_in(zone: str, day: date, hours: int = 30) -> Plan:
    """A step of four hours at noon of a day, and a wait of `hours` after it, in a zone."""
    start = int(datetime(day.year, day.month, day.day, 12, tzinfo=ZoneInfo(zone)).timestamp() // 60)
    plan = orchard_row()
    one = replace(plan.steps[4], start=start, end=start + 240, pieces=((start, start + 240),))
    other = replace(plan.steps[8], start=start + 240 + 60 * hours, end=start + 300 + 60 * hours, after=())
    other = replace(other, pieces=((other.start, other.end),), ready=())
    waits = tuple(replace(ready, at=start + 240 + 60 * hours, listeners=(other.id,)) for ready in one.ready[1:])
    return replace(
        plan, zone=zone, steps=(replace(one, ready=waits), other), closed=(), visits=(), orders=(), still_to_come=(),
        finish=other.end, as_of=start - 1440, promise=None, closed_days={}, milestones={},
    )


def by_summary(file: Part) -> dict[str, Part]:
    return {re.sub(r"\\(.)", r"\1", event.value("SUMMARY")): event for event in file.of("VEVENT")}


def test_the_file_of_the_plan_conforms() -> None:
    assert len(conforms(calendar(orchard_row())).of("VEVENT")) > len(orchard_row().steps)


def test_the_file_of_several_rooms_conforms_and_names_the_room() -> None:
    assert "Hall: Tile laid (you)" in by_summary(conforms(calendar(two_rooms())))


def test_the_same_plan_gives_the_same_octets() -> None:
    assert calendar(orchard_row()) == calendar(orchard_row())


def test_another_plan_of_the_same_job_keeps_the_names_of_its_entries() -> None:
    plan = orchard_row()
    renamed = tuple(replace(one, title=one.title + " again") for one in plan.steps)
    later = replace(plan, steps=renamed, as_of=plan.as_of + 1440)
    one, other = (conforms(calendar(each)) for each in (plan, later))
    assert {event.value("UID") for event in one.of("VEVENT")} == {event.value("UID") for event in other.of("VEVENT")}
    assert {event.value("DTSTAMP") for event in other.of("VEVENT")} == {"20260303T040000Z"}


def test_another_job_has_other_names_for_the_same_steps() -> None:
    one, other = (conforms(calendar(replace(orchard_row(), job=job))) for job in ("orchard-row", "other"))
    assert not {event.value("UID") for event in one.of("VEVENT")} & {event.value("UID") for event in other.of("VEVENT")}


def test_every_entry_lies_where_the_plan_says_in_utc() -> None:
    found = by_summary(conforms(calendar(orchard_row())))
    for summary, (start, end) in SUMMARIES.items():
        assert span(found[summary]) == (utc(t(start)), utc(t(end))), summary


def test_work_takes_time_and_waits_do_not() -> None:
    for summary, event in by_summary(conforms(calendar(orchard_row()))).items():
        busy = summary.split("(")[-1].split(",")[0].rstrip(")") in ("you", "plumber", "electrician", "inspector")
        assert event.value("TRANSP") == ("OPAQUE" if busy else "TRANSPARENT"), summary


def test_a_firm_visit_is_confirmed_and_a_pencilled_one_is_not() -> None:
    found = by_summary(conforms(calendar(orchard_row())))
    assert found["Pipes and drain run (plumber)"].value("STATUS") == "CONFIRMED"
    assert found["Cables and boxes (electrician)"].value("STATUS") == "TENTATIVE"


def test_work_over_days_is_one_entry_a_day() -> None:
    found = by_summary(conforms(calendar(orchard_row())))
    days = [found[f"Wall tile set (you, day {n} of 3)"] for n in (1, 2, 3)]
    assert [span(day)[0] for day in days] == [utc(t(f"{n} March 08:00")) for n in (18, 19, 20)]


def test_the_predecessor_names_its_successor_with_the_wait_between_them_in_exact_hours() -> None:
    found = by_summary(conforms(calendar(orchard_row())))
    coat, fill = found["Second coat (you)"], found["Drain plugged, filled to the mark (you)"]
    (follows,) = (one for one in coat.all("RELATED-TO") if one.params["RELTYPE"] == "FINISHTOSTART")
    assert follows.value == fill.value("UID")
    assert gap(follows.params["GAP"]) == timedelta(hours=57)
    depends = [one.value for one in fill.all("RELATED-TO") if one.params["RELTYPE"] == "DEPENDS-ON"]
    assert depends == [coat.value("UID")]


def test_days_to_call_and_to_order_are_whole_days() -> None:
    found = by_summary(conforms(calendar(orchard_row())))
    assert span(found["Order: glass"]) == (date(2026, 3, 25), date(2026, 3, 26))
    assert span(found["Hand over 09:00"]) == (date(2026, 4, 9), date(2026, 4, 10))
    assert span(found["Toilet back 15:00"]) == (date(2026, 4, 2), date(2026, 4, 3))
    assert "Why not sooner: the joints stand 29 h" in found["Hand over 09:00"].value("DESCRIPTION")
    assert span(found["Promised to the client"]) == (date(2026, 4, 24), date(2026, 4, 25))


def test_a_single_entry_makes_no_named_calendar() -> None:
    one = step("paint", "coat", "Paint", spans("2 March 08:00-12:00"), ("ceiling",))
    plan = replace(two_rooms(), steps=(one,))
    assert len(entries_of(plan)) == 1
    assert not conforms(calendar(plan)).all("NAME")


def test_a_plan_without_steps_makes_no_file() -> None:
    with pytest.raises(ValueError, match="no calendar"):
        calendar(replace(two_rooms(), steps=()))


def test_odd_letters_and_control_characters_do_not_break_the_file() -> None:
    odd = 'Caf\u00e9; tile, "blue" \\ \u4e2d\u6587' + "\u4e2d\u6587" * 20 + " \u0007\u000b bell: " * 3
    plan = replace(two_rooms(), steps=(replace(two_rooms().steps[0], title=odd),))
    conforms(calendar(plan))
    (event,) = icalendar.Calendar.from_ical(calendar(plan)).walk("VEVENT")
    assert str(event["SUMMARY"]).startswith('Café; tile, "blue" \\ 中文')


def test_a_boundary_in_the_repeated_hour_is_written_in_utc() -> None:
    plan = plan_in("America/Halifax", date(2026, 10, 31), hours=9)
    (coat,) = (one for one in plan.steps if one.step == "coat 1")
    assert utc(coat.start) == datetime(2026, 11, 1, 4, 0, tzinfo=UTC)
    event = by_summary(conforms(calendar(plan)))["First coat, corners and drain taped (you)"]
    assert event.value("DTSTART") == "20261101T040000Z"


ZONES = [
    ("America/New_York", date(2026, 10, 31)),
    ("America/New_York", date(2027, 3, 13)),
    ("Europe/London", date(2027, 3, 27)),
    ("Europe/Dublin", date(2026, 10, 24)),
    ("Australia/Lord_Howe", date(2026, 10, 3)),
    ("America/Phoenix", date(2026, 3, 7)),
    ("Asia/Kolkata", date(2026, 6, 1)),
    ("Africa/Casablanca", date(2026, 2, 14)),
    ("America/Halifax", date(2026, 6, 1)),
    ("UTC", date(2026, 6, 1)),
]
"""A plan across, or near, a change of the clocks: an hour, half an hour, none; by rule and by decree."""

FLOATING_IN_VOBJECT = [("Africa/Casablanca", date(2026, 2, 14))]
"""vobject takes a zone that its definition shows at UTC from 2000 to 2020 for no zone at all (its `pickTzid`)."""


@pytest.mark.parametrize(
    ("zone", "day", "reader"),
    [
        (*zone, reader)
        for zone in ZONES
        for reader in ("icalendar", "vobject", "dateutil", "recurring_ical_events")
        if reader != "vobject" or zone not in FLOATING_IN_VOBJECT
    ],
)
def test_readers_agree_with_the_plan_on_every_moment(zone: str, day: date, reader: str) -> None:
    plan = plan_in(zone, day)
    octets = calendar(plan)
    conforms(octets)
    expected = sorted((utc(entry.start), utc(entry.end)) for entry in entries_of(plan))
    assert READERS[reader](octets) == expected
    waited = next(entry for entry in entries_of(plan) if entry.key.endswith("dries, floor"))
    assert waited.end - waited.start == 30 * 60


Moments = list[tuple[datetime, datetime]]


def _by_icalendar(octets: bytes) -> Moments:
    events = icalendar.Calendar.from_ical(octets).walk("VEVENT")
    return sorted((event["DTSTART"].dt.astimezone(UTC), event["DTEND"].dt.astimezone(UTC)) for event in events)


def _by_vobject(octets: bytes) -> Moments:
    """Through its own reading of our VTIMEZONE: a name it has never met keeps its register of zones out."""
    _by_vobject.count += 1  # type: ignore[attr-defined]
    text = re.sub(r"(TZID[=:])([\w/+-]+)", rf"\1Test/Zone{_by_vobject.count}", octets.decode())  # type: ignore[attr-defined]
    events = vobject.readOne(text).vevent_list
    return sorted((event.dtstart.value.astimezone(UTC), event.dtend.value.astimezone(UTC)) for event in events)


_by_vobject.count = 0  # type: ignore[attr-defined]


def _by_dateutil(octets: bytes) -> Moments:
    """Our own octet reader for the times, dateutil's reading of our VTIMEZONE for the zone."""
    file = read(octets)
    text = octets.decode().replace("\r\n ", "")
    zones = tzical(StringIO(text.replace("\r\n", "\n"))) if file.of("VTIMEZONE") else None

    def at(event: Part, name: str) -> datetime:
        one = event.all(name)[0]
        if one.value.endswith("Z"):
            return datetime.strptime(one.value, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
        assert zones is not None
        local = datetime.strptime(one.value, "%Y%m%dT%H%M%S")
        return local.replace(tzinfo=zones.get(one.params["TZID"])).astimezone(UTC)

    return sorted((at(event, "DTSTART"), at(event, "DTEND")) for event in file.of("VEVENT"))


def _by_recurring_ical_events(octets: bytes) -> Moments:
    query = recurring_ical_events.of(icalendar.Calendar.from_ical(octets))
    events = query.between(datetime(2026, 1, 1, tzinfo=UTC), datetime(2028, 1, 1, tzinfo=UTC))
    return sorted((event["DTSTART"].dt.astimezone(UTC), event["DTEND"].dt.astimezone(UTC)) for event in events)


READERS: dict[str, Callable[[bytes], Moments]] = {
    "icalendar": _by_icalendar,
    "vobject": _by_vobject,
    "dateutil": _by_dateutil,
    "recurring_ical_events": _by_recurring_ical_events,
}


def test_a_reader_that_writes_the_file_again_loses_no_octet() -> None:
    octets = calendar(orchard_row())
    assert icalendar.Calendar.from_ical(octets).to_ical(sorted=False) == octets


@pytest.mark.parametrize("zone", ["America/Halifax", "Europe/London", "Australia/Lord_Howe", "Pacific/Auckland"])
def test_a_zone_with_yearly_rules_is_written_as_rules(zone: str) -> None:
    moment = datetime(2026, 3, 2, tzinfo=UTC)
    parts = time_zone(zone, moment, moment + timedelta(days=60)).subcomponents
    assert len(parts) == 2
    assert all("RRULE" in part for part in parts)


def test_a_zone_without_a_yearly_rule_is_written_change_by_change() -> None:
    moment = datetime(2026, 3, 2, tzinfo=UTC)
    parts = time_zone("Africa/Casablanca", moment, moment + timedelta(days=60)).subcomponents
    assert len(parts) > 2
    assert not any("RRULE" in part for part in parts)


@given(
    st.sampled_from(["America/Halifax", "Europe/Dublin", "Australia/Lord_Howe", "Asia/Kolkata", "Africa/Casablanca"]),
    st.datetimes(datetime(2024, 1, 1), datetime(2034, 1, 1)),
    st.integers(1, 120),
)
@settings(max_examples=40, deadline=None)
def test_our_zone_gives_the_offset_of_the_zone_data_all_along_a_plan(zone: str, start: datetime, days: int) -> None:
    first = start.replace(tzinfo=UTC, second=0, microsecond=0)
    text = time_zone(zone, first, first + timedelta(days=days)).to_ical().decode().replace("\r\n", "\n")
    read_back = tzical(StringIO(text)).get(zone)
    for hours in range(0, 24 * days, 11):
        moment = first + timedelta(hours=hours)
        local = moment.astimezone(ZoneInfo(zone)).replace(tzinfo=None)
        assert moment.astimezone(read_back).replace(tzinfo=None) == local


def test_the_entries_of_a_step_hang_together() -> None:
    keys = [entry.key for entry in entries_of(orchard_row())]
    assert len(keys) == len(set(keys))
    assert {B + "wall-tile/set", B + "wall-tile/set, day 2", B + "wall-tile/set, day 3"} <= set(keys)



def test_no_entry_ends_before_it_starts() -> None:
    for entry in entries_of(orchard_row()):
        assert entry.end > entry.start or entry.all_day
