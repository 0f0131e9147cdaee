"""A reader of calendar files that looks at octets alone, and what RFC 5545, 7986 and 9253 ask of them.

Each check names its section. It shares no code with the writer.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo, available_timezones

PARAM_VALUE = r"(?:\"[^\"]*\"|[^\";:,]*)"
PARAM = rf";[A-Za-z0-9-]+={PARAM_VALUE}(?:,{PARAM_VALUE})*"
LINE = re.compile(rf"(?P<name>[A-Za-z0-9-]+)(?P<params>(?:{PARAM})*):(?P<value>.*)")
ONCE = ("UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "STATUS", "TRANSP", "SEQUENCE", "CLASS", "URL")
TEXTS = ("SUMMARY", "DESCRIPTION", "NAME", "X-WR-CALNAME", "LOCATION")


@dataclass
class Property:
    """One logical line."""

    name: str
    params: dict[str, str]
    value: str


@dataclass
class Part:
    """A component: its properties in order, and the components in it."""

    name: str
    properties: list[Property] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)

    def all(self, name: str) -> list[Property]:
        return [one for one in self.properties if one.name == name]

    def value(self, name: str) -> str:
        (found,) = self.all(name)
        return found.value

    def of(self, name: str) -> list[Part]:
        return [part for part in self.parts if part.name == name]


def read(octets: bytes) -> Part:
    """The file as a tree; AssertionError if its lines are not what they must be."""
    assert not octets.startswith(b"\xef\xbb\xbf"), "a byte order mark (5545 3.1.4)"
    assert octets.endswith(b"\r\n"), "the last line ends in CRLF (5545 3.1)"
    assert octets.count(b"\r") == octets.count(b"\n") == octets.count(b"\r\n"), "bare CR or LF (5545 3.1)"
    lines: list[str] = []
    for physical in octets[:-2].split(b"\r\n"):
        assert len(physical) <= 75, "a line over 75 octets (5545 3.1)"
        text = physical.decode("utf-8")
        assert text, "an empty line (5545 3.1)"
        if text[0] == " ":
            lines[-1] += text[1:]
        else:
            lines.append(text)
    stack = [Part("file")]
    for line in lines:
        assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f]", line), "a control character (5545 3.3.11)"
        found = LINE.fullmatch(line)
        assert found, f"no content line: {line} (5545 3.1)"
        name, value = found["name"].upper(), found["value"]
        if name == "BEGIN":
            stack.append(Part(value))
        elif name == "END":
            done = stack.pop()
            assert done.name == value, "BEGIN and END do not pair (5545 3.6)"
            stack[-1].parts.append(done)
        else:
            params = dict(one.split("=", 1) for one in found["params"].split(";")[1:])
            stack[-1].properties.append(Property(name, params, value))
    assert len(stack) == 1, "a component that does not end (5545 3.6)"
    (calendar,) = stack[0].parts
    assert calendar.name == "VCALENDAR", "one VCALENDAR (5545 3.4)"
    return calendar


def moment(one: Property) -> datetime | date:
    """A DATE as a date, a DATE-TIME as an aware UTC datetime; floating times are refused."""
    if one.params.get("VALUE") == "DATE":
        assert "TZID" not in one.params, "TZID on a DATE (5545 3.2.19)"
        return datetime.strptime(one.value, "%Y%m%d").date()
    if one.value.endswith("Z"):
        assert "TZID" not in one.params, "TZID on a UTC time (5545 3.2.19)"
        return datetime.strptime(one.value, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    assert "TZID" in one.params, "a floating time (5545 3.3.5)"
    local = datetime.strptime(one.value, "%Y%m%dT%H%M%S").replace(tzinfo=ZoneInfo(one.params["TZID"]))
    assert local.replace(fold=0).utcoffset() == local.replace(fold=1).utcoffset(), "a repeated hour (5545 3.3.5)"
    return local.astimezone(UTC)


def span(event: Part) -> tuple[datetime | date, datetime | date]:
    """Start and end of an event."""
    return moment(event.all("DTSTART")[0]), moment(event.all("DTEND")[0])


def gap(text: str) -> timedelta:
    """A duration in exact hours and minutes, the only kind we write."""
    found = re.fullmatch(r"PT(?:(\d+)H)?(?:(\d+)M)?", text)
    assert found and any(found.groups()), f"no duration in hours: {text} (9253 6.2, 5545 3.3.6)"
    return timedelta(hours=int(found[1] or 0), minutes=int(found[2] or 0))


def conforms(octets: bytes) -> Part:
    """Every assertion that concerns a file of a whole plan; gives the tree for further questions."""
    calendar = read(octets)
    assert calendar.value("VERSION") == "2.0", "5545 3.7.4"
    assert calendar.value("PRODID"), "5545 3.7.3"
    assert [one.value for one in calendar.all("CALSCALE")] in ([], ["GREGORIAN"]), "5545 3.7.1"
    assert not calendar.all("METHOD"), "METHOD in a file (5546 3.2)"
    assert not calendar.all("UID"), "a UID on the calendar itself makes readers take it for one item"
    assert not calendar.all("X-WR-TIMEZONE"), "some readers let it win over VTIMEZONE"
    assert {part.name for part in calendar.parts} <= {"VEVENT", "VTIMEZONE"}
    events = calendar.of("VEVENT")
    assert events, "no component (5545 3.6)"
    names = [[one.value for one in calendar.all(name)] for name in ("NAME", "X-WR-CALNAME")]
    assert names[0] == names[1] and len(names[0]) == (len(events) > 1), "7986 5.1"
    for part in (calendar, *events):
        for one in part.properties:
            if one.name in TEXTS:
                assert re.fullmatch(r"(?:[^\\;,]|\\[\\;,nN])*", one.value), f"escaping (5545 3.3.11): {one.value}"
    _zones_conform(calendar)
    for event in events:
        _event_conforms(event)
    counted = Counter(event.value("UID") for event in events)
    assert max(counted.values()) == 1, "a UID twice (5545 3.8.4.7)"
    _relations_conform(events)
    return calendar


def _event_conforms(event: Part) -> None:
    assert max(Counter(one.name for one in event.properties if one.name in ONCE).values()) == 1, "5545 3.6.1"
    assert not event.all("DURATION") and event.all("DTEND"), "5545 3.6.1; some servers refuse events without DTEND"
    assert re.fullmatch(r"[0-9a-f-]{36}", event.value("UID")), "7986 5.3"
    assert re.fullmatch(r"\d{8}T\d{6}Z", event.value("DTSTAMP")), "5545 3.8.7.2"
    assert int(event.value("SEQUENCE")) >= 0, "5545 3.8.7.4"
    assert event.value("SUMMARY"), "5545 3.8.1.12"
    assert event.value("TRANSP") in ("OPAQUE", "TRANSPARENT"), "5545 3.8.2.7"
    assert [one.value for one in event.all("STATUS")] in ([], ["TENTATIVE"], ["CONFIRMED"]), "5545 3.8.1.11"
    assert not event.all("ATTENDEE") and not event.all("ORGANIZER"), "people in a file"
    start, end = span(event)
    assert type(start) is type(end), "5545 3.8.2.2"
    assert end > start, "5545 3.8.2.2"
    local = [("TZID" in event.all(name)[0].params) for name in ("DTSTART", "DTEND")]
    assert local[0] == local[1], "local if and only if the start is local (5545 3.8.2.2)"


def _zones_conform(calendar: Part) -> None:
    zones = {zone.value("TZID"): zone for zone in calendar.of("VTIMEZONE")}
    assert len(zones) == len(calendar.of("VTIMEZONE")), "a TZID twice (5545 3.6.5)"
    used = {one.params["TZID"] for event in calendar.of("VEVENT") for one in event.properties if "TZID" in one.params}
    assert used == set(zones), "each TZID has its VTIMEZONE, each VTIMEZONE is used (5545 3.2.19, 3.6.5)"
    for name, zone in zones.items():
        assert name in available_timezones(), "5545 3.2.19"
        assert {one.name for one in zone.properties} == {"TZID"}, "5545 3.6.5"
        assert zone.parts, "5545 3.6.5"
        for part in zone.parts:
            assert part.name in ("STANDARD", "DAYLIGHT"), "5545 3.6.5"
            assert not part.all("RDATE"), "several readers read only the first of a list"
            onset = datetime.strptime(part.value("DTSTART"), "%Y%m%dT%H%M%S")
            before, after = _offset(part.value("TZOFFSETFROM")), _offset(part.value("TZOFFSETTO"))
            if before != after:
                at = (onset - before).replace(tzinfo=UTC)
                assert at.astimezone(ZoneInfo(name)).utcoffset() == after, "5545 3.6.5"
                assert (at - timedelta(seconds=1)).astimezone(ZoneInfo(name)).utcoffset() == before, "5545 3.6.5"


def _offset(text: str) -> timedelta:
    found = re.fullmatch(r"([+-])(\d\d)(\d\d)", text)
    assert found, "5545 3.3.14"
    size = timedelta(hours=int(found[2]), minutes=int(found[3]))
    return -size if found[1] == "-" else size


def _relations_conform(events: list[Part]) -> None:
    by_uid = {event.value("UID"): event for event in events}
    follows: dict[str, list[str]] = {}
    for uid, event in by_uid.items():
        kinds = [one.params["RELTYPE"] for one in event.all("RELATED-TO")]
        assert kinds == sorted(kinds, key=lambda kind: kind != "FINISHTOSTART"), "FINISHTOSTART first"
        for one in event.all("RELATED-TO"):
            assert one.params["RELTYPE"] in ("FINISHTOSTART", "DEPENDS-ON", "PARENT"), "9253 4, 5; 5545 3.2.15"
            assert one.value in by_uid and one.value != uid, "a relation out of this file (9253)"
            if one.params["RELTYPE"] == "FINISHTOSTART":
                least = span(event)[1] + gap(one.params["GAP"]) if "GAP" in one.params else span(event)[1]
                assert span(by_uid[one.value])[0] >= least, "the successor starts within the gap (9253 4, 6.2)"
                follows.setdefault(uid, []).append(one.value)
    seen: dict[str, int] = {}

    def walk(uid: str) -> None:
        assert seen.get(uid) != 1, "relations run in a circle"
        if uid not in seen:
            seen[uid] = 1
            for later in follows.get(uid, []):
                walk(later)
            seen[uid] = 2

    for uid in by_uid:
        walk(uid)
