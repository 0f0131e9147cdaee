"""The shape of a job file and of people.yaml."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any
from zoneinfo import ZoneInfo

from sequencer.files.air_said import AirWords, parse_air_words
from sequencer.files.border import Model
from sequencer.files.clock import parse_hour, parse_hours
from sequencer.files.days import parse_day, parse_days, parse_weekdays
from sequencer.files.fields import (
    gathered,
    may_be_empty,
    one_of,
    parse_format,
    parse_name,
    parse_named,
    parse_yes,
    said,
    said_each,
    table_of,
    text_of,
    texts_of,
    told,
)
from sequencer.files.holidays_text import parse_holidays
from sequencer.files.quantities import (
    parse_area,
    parse_count,
    parse_duration,
    parse_length,
    parse_work_time,
    parse_working_days,
)
from sequencer.files.refs import Ref, parse_ref
from sequencer.files.tree import Rows, Table, Text, cut
from sequencer.files.wrong import Wrong, nearest
from sequencer.terms.place import Place
from sequencer.terms.practice import DISTURBANCES
from sequencer.terms.recipe import Named
from sequencer.terms.words import SURFACES

_ASK_BY = re.compile(r"(?P<hour>.+?)\s+(?P<day>the same day|the day before|(?P<count>[0-9]{1,2}) working days? before)")
_SIZE = re.compile(r"(?P<length>.+?)\s+by\s+(?P<width>.+?)\s*,\s*(?P<height>.+?)\s+high")
_BOOKED = re.compile(
    r"(?P<trade>[^,]+),\s*(?P<day>.+?)\s+(?P<hour>[0-9]{1,2}:[0-9]{2}(?:\s*[ap]m)?|[0-9]{1,2}\s*[ap]m),\s*(?P<step>.+)",
    re.IGNORECASE,
)

Days = tuple[date, date]


@dataclass(frozen=True)
class AskBy:
    """The last moment to ask for somebody: hour of the day [min], so many working days before."""

    hour: int
    days_before: int


@dataclass(frozen=True)
class Size:
    """Of a room [m]."""

    length: float
    width: float
    height: float


@dataclass(frozen=True)
class Part:
    """A part of a room's surfaces, with its area [m2] if one is given."""

    name: str
    area: float | None
    place: Place


@dataclass(frozen=True)
class Booked:
    """A firm visit as written. `hour`: minutes after midnight."""

    trade: Text
    day: date
    hour: int
    step: Text
    place: Place


def _zone(text: str) -> ZoneInfo:
    try:
        return ZoneInfo(text)
    except (OSError, ValueError):
        from zoneinfo import available_timezones

        raise Wrong(text, f'no time zone is called "{text}"', _near_zone(text, available_timezones())) from None


def _near_zone(text: str, known: set[str]) -> str:
    advice = nearest(text, sorted(known))
    return advice if advice.startswith('write "') else "write one like America/Halifax or Europe/London"


def _start(text: str) -> date:
    return parse_day(text)


def _day(node: Any, context: dict[str, Any]) -> date:
    start = context["start"]
    text = text_of(node)
    return parse_day(text, start) if start is not None else date.min


def _ordered(node: Any, context: dict[str, Any]) -> date:
    start = context["start"]
    text = text_of(node)
    return parse_day(text, start, nearest_year=True) if start is not None else date.min


def _spans(node: Any, context: dict[str, Any]) -> tuple[Days, ...]:
    start = context["start"]
    texts = texts_of(node)
    return tuple(gathered(lambda text: parse_days(text, start), texts)) if start is not None else ()


def _weekdays(node: Any, context: dict[str, Any]) -> frozenset[int]:
    return frozenset().union(*gathered(parse_weekdays, texts_of(node)))


def _ask_by(text: str) -> AskBy:
    found = _ASK_BY.fullmatch(text)
    if found is None:
        write = "write 15:00 the day before, 07:00 the same day, or 12:00 2 working days before"
        raise Wrong(text, f'"{text}" is no last moment to ask', write)
    hour = parse_hour(cut(text, 0, found.end("hour")))
    before = int(found["count"]) if found["count"] else int(found["day"] == "the day before")
    return AskBy(hour, before)


def _outage(text: str) -> int:
    found = re.fullmatch(r"(.+?)\s+at a time", text)
    if found is None:
        raise Wrong(text, f'"{text}" does not say how long at a time', "write 2 h at a time")
    return parse_duration(cut(text, 0, found.end(1)))


def _size(text: str) -> Size:
    found = _SIZE.fullmatch(text)
    if found is None:
        raise Wrong(text, f'"{text}" is no size of a room', "write 2.4 m by 2.1 m, 2.4 m high")
    sides = [parse_length(cut(text, found.start(side), found.end(side))) for side in ("length", "width", "height")]
    if min(sides) <= 0:
        raise Wrong(text, "the room has a side without length", "write 2.4 m by 2.1 m, 2.4 m high")
    return Size(*sides)


def _areas(node: Any, context: dict[str, Any]) -> dict[str, float]:
    table = table_of(node)

    def one(key: Text) -> tuple[str, float]:
        return str(one_of(SURFACES, "surface")(key)), parse_area(text_of(table[key]))

    return dict(gathered(one, table.texts()))


def _parts(node: Any, context: dict[str, Any]) -> tuple[Part, ...]:
    if isinstance(node, Table):
        areas = node
        return tuple(gathered(lambda key: _part(key, parse_area(text_of(areas[key]))), node.texts()))
    return tuple(gathered(lambda text: _part(text, None), texts_of(node)))


def _part(name: str, area: float | None) -> Part:
    assert isinstance(name, Text)
    if "/" in name or "," in name:
        raise Wrong(name, f'"{name}" cannot name a part', "use letters, digits, spaces, hyphens")
    return Part(str(name), area, name.place)


def _booked(node: Any, context: dict[str, Any]) -> tuple[Booked, ...]:
    return tuple(gathered(lambda each: _booking(text_of(each), context["start"]), node if isinstance(node, Rows) else [node]))


def _booking(text: str, start: date | None) -> Booked:
    found = _BOOKED.fullmatch(text)
    if found is None:
        write = "write plumber, Tue 10 March 08:00, bathroom rough-plumbing"
        raise Wrong(text, f'"{text}" is no booking', write)
    assert isinstance(text, Text)
    trade, day, hour, step = (text.cut(found.start(part), found.end(part)) for part in ("trade", "day", "hour", "step"))
    return Booked(trade, parse_day(day, start) if start else date.min, parse_hour(hour), step, text.place)


def _change(node: Any, context: dict[str, Any]) -> Table:
    return table_of(node)


Line = Annotated[str | None, said(str)]
Refs = Annotated[tuple[Ref, ...] | None, said_each(parse_ref)]


class PlaceModel(Model):
    """Where the job is."""

    zone: Annotated[ZoneInfo, said(_zone)]
    holidays: Annotated[tuple[str, str | None] | None, said(parse_holidays)] = None


class PersonModel(Model):
    """Somebody's hours and notice as written: what is not said is None."""

    days: Annotated[frozenset[int] | None, told(_weekdays)] = None
    hours: Annotated[tuple[int, int] | None, said(parse_hours)] = None
    break_: Annotated[tuple[tuple[int, int], ...] | None, said_each(parse_hours)] = None
    holidays: Annotated[bool | None, said(parse_yes)] = None
    away: Annotated[tuple[Days, ...] | None, told(_spans)] = None
    hands: Annotated[int | None, said(parse_count)] = None
    set_up: Annotated[int | None, said(parse_duration)] = None
    clean_up: Annotated[int | None, said(parse_duration)] = None
    notice: Annotated[int | None, said(parse_working_days)] = None
    cushion: Annotated[int | None, said(parse_work_time)] = None
    shortest_visit: Annotated[int | None, said(parse_work_time)] = None
    travel: Annotated[int | None, said(parse_duration)] = None
    hour_known: Annotated[bool | None, said(parse_yes)] = None
    ask_by: Annotated[AskBy | None, said(_ask_by)] = None


People = dict[str, Annotated[PersonModel, may_be_empty]]


class PeopleModel(Model):
    """people.yaml as written."""

    format: Annotated[str, said(parse_format)]
    people: People


class HouseModel(Model):
    """What the people in the house ask for."""

    people_live_here: Annotated[bool | None, said(parse_yes)] = None
    noise: Annotated[tuple[int, int] | None, said(parse_hours)] = None
    water_off: Annotated[int | None, said(_outage)] = None
    drain_off: Annotated[int | None, said(_outage)] = None
    power_off: Annotated[int | None, said(_outage)] = None


class UseModel(Model):
    """A recipe in a room."""

    recipe: Annotated[str | None, said(parse_name)] = None
    by: Line = None
    parts: Annotated[tuple[Part, ...] | None, told(_parts)] = None
    after: Refs = None
    before: Refs = None
    change: Annotated[Table | None, told(_change)] = None
    was: Annotated[str | None, said(parse_name)] = None


class RoomModel(Model):
    """A room as written."""

    title: Line = None
    size: Annotated[Size | None, said(_size)] = None
    areas: Annotated[dict[str, float] | None, told(_areas)] = None
    at_once: Annotated[int | None, said(parse_count)] = None
    already: Annotated[tuple[Named, ...] | None, said_each(parse_named)] = None
    reached_through: Annotated[Named | None, said(parse_named)] = None
    air: Annotated[AirWords | None, told(parse_air_words)] = None
    recipes: dict[str, Annotated[UseModel, may_be_empty]]


class OrderModel(Model):
    """Something ordered."""

    for_: Annotated[tuple[Ref, ...], said_each(parse_ref)]
    ordered: Annotated[date | None, told(_ordered)] = None
    lead: Annotated[int, said(parse_working_days)]
    made_after: Annotated[Ref | None, said(parse_ref)] = None


class JobModel(Model):
    """A job file as written."""

    format: Annotated[str, said(parse_format)]
    job: Annotated[str, said(parse_name)]
    title: Line = None
    place: PlaceModel
    words: Annotated[str | None, said(one_of(("US", "UK"), "form of words"))] = None
    start: Annotated[date, said(_start)]
    promise: Annotated[date | None, told(_day)] = None
    hand_over_needs: Annotated[tuple[str, ...] | None, said_each(one_of(DISTURBANCES, "thing a layer can bear"))] = None
    closed: Annotated[tuple[Days, ...] | None, told(_spans)] = None
    people: People | None = None
    house: Annotated[HouseModel | None, may_be_empty] = None
    air: Annotated[AirWords | None, told(parse_air_words)] = None
    rooms: dict[str, RoomModel]
    orders: dict[str, OrderModel] | None = None
    booked: Annotated[tuple[Booked, ...] | None, told(_booked)] = None
