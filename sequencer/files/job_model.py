"""The shape of a job file and of people.yaml."""

from __future__ import annotations

from datetime import date
from typing import Annotated
from zoneinfo import ZoneInfo

from pydantic import PlainValidator

from sequencer.files.air_said import AirWords, parse_air_words
from sequencer.files.border import Model
from sequencer.files.cable_text import parse_ohms
from sequencer.files.clock import parse_hours
from sequencer.files.damp_text import parse_air_changes, parse_dryer, parse_flow
from sequencer.files.days import parse_day
from sequencer.files.fields import (
    may_be_empty,
    one_of,
    parse_format,
    parse_name,
    parse_named,
    parse_yes,
    said,
    said_each,
    table_of,
    told,
)
from sequencer.files.holidays_text import parse_holidays
from sequencer.files.house_text import BookedSpan, Toilet, WeekHours, lift_of, parse_gone, parse_week_hours, toilet_of
from sequencer.files.job_texts import (
    AskBy,
    Booked,
    Days,
    Part,
    Size,
    areas_of,
    booked_of,
    day_of,
    must_haves_of,
    ordered_of,
    parse_ask_by,
    parse_outage,
    parse_preference,
    parse_size,
    parse_zone,
    parts_of,
    spans_of,
    weekdays_of,
)
from sequencer.files.measured_text import Reading, measured_of
from sequencer.files.quantities import parse_area, parse_count, parse_duration, parse_work_time, parse_working_days
from sequencer.files.refs import Ref, parse_ref
from sequencer.files.tree import Table
from sequencer.files.way_chosen import OwnCosts, own_costs
from sequencer.terms.practice import DISTURBANCES
from sequencer.terms.recipe import Named

Line = Annotated[str | None, said(str)]
Refs = Annotated[tuple[Ref, ...] | None, said_each(parse_ref)]


class PlaceModel(Model):
    """Where the job is."""

    zone: Annotated[ZoneInfo, said(parse_zone)]
    holidays: Annotated[tuple[str, str | None] | None, said(parse_holidays)] = None


class PersonModel(Model):
    """Somebody's hours and notice as written: what is not said is None."""

    days: Annotated[frozenset[int] | None, told(weekdays_of)] = None
    hours: Annotated[tuple[WeekHours, ...] | None, said_each(parse_week_hours)] = None
    break_: Annotated[tuple[tuple[int, int], ...] | None, said_each(parse_hours)] = None
    holidays: Annotated[bool | None, said(parse_yes)] = None
    away: Annotated[tuple[Days, ...] | None, told(spans_of)] = None
    hands: Annotated[int | None, said(parse_count)] = None
    set_up: Annotated[int | None, said(parse_duration)] = None
    clean_up: Annotated[int | None, said(parse_duration)] = None
    notice: Annotated[int | None, said(parse_working_days)] = None
    cushion: Annotated[int | None, said(parse_work_time)] = None
    shortest_visit: Annotated[int | None, said(parse_work_time)] = None
    travel: Annotated[int | None, said(parse_duration)] = None
    hour_known: Annotated[bool | None, said(parse_yes)] = None
    ask_by: Annotated[AskBy | None, said(parse_ask_by)] = None


People = dict[str, Annotated[PersonModel, may_be_empty]]


class PeopleModel(Model):
    """people.yaml as written."""

    format: Annotated[str, said(parse_format)]
    people: People


class HouseModel(Model):
    """What the people in the house ask for."""

    people_live_here: Annotated[bool | None, said(parse_yes)] = None
    noise: Annotated[tuple[WeekHours, ...] | None, said_each(parse_week_hours)] = None
    access: Annotated[tuple[WeekHours, ...] | None, said_each(parse_week_hours)] = None
    lift: Annotated[tuple[BookedSpan, ...] | None, told(lift_of)] = None
    only_toilet: Annotated[Toilet | None, told(toilet_of)] = None
    fumes: Annotated[int | None, said(parse_gone)] = None
    water_off: Annotated[int | None, said(parse_outage)] = None
    drain_off: Annotated[int | None, said(parse_outage)] = None
    power_off: Annotated[int | None, said(parse_outage)] = None


class CableModel(Model):
    """A heating cable: the floor it is made for [m2], the floor something is fixed to [m2], its resistance [ohm]."""

    covers: Annotated[float, said(parse_area)]
    keep_clear: Annotated[float | None, said(parse_area)] = None
    ohms: Annotated[tuple[float, float] | None, said(parse_ohms)] = None


class UseModel(Model):
    """A recipe in a room."""

    recipe: Annotated[str | None, said(parse_name)] = None
    use: Annotated[Named | None, said(parse_named)] = None
    costs: Annotated[OwnCosts | None, told(own_costs)] = None
    by: Line = None
    parts: Annotated[tuple[Part, ...] | None, told(parts_of)] = None
    cable: CableModel | None = None
    after: Refs = None
    before: Refs = None
    change: Annotated[Table | None, PlainValidator(table_of)] = None


class RoomModel(Model):
    """A room as written."""

    title: Line = None
    size: Annotated[Size | None, said(parse_size)] = None
    areas: Annotated[dict[str, float] | None, told(areas_of)] = None
    at_once: Annotated[int | None, said(parse_count)] = None
    already: Annotated[tuple[Named, ...] | None, said_each(parse_named)] = None
    reached_through: Annotated[Named | None, said(parse_named)] = None
    air: Annotated[AirWords | None, told(parse_air_words)] = None
    air_changes: Annotated[float | None, said(parse_air_changes)] = None
    fan: Annotated[float | None, said(parse_flow)] = None
    dehumidifier: Annotated[float | None, said(parse_dryer)] = None
    recipes: dict[str, Annotated[UseModel, may_be_empty]] = {}


class OrderModel(Model):
    """Something ordered."""

    for_: Annotated[tuple[Ref, ...], said_each(parse_ref)]
    ordered: Annotated[date | None, told(ordered_of)] = None
    lead: Annotated[int, said(parse_working_days)]
    made_after: Annotated[Ref | None, said(parse_ref)] = None
    once_decided: Annotated[Named | None, said(parse_named)] = None
    check: Annotated[int | None, said(parse_duration)] = None


class DecisionModel(Model):
    """Something to be decided."""

    by: Annotated[Named | None, said(parse_named)] = None
    before: Annotated[tuple[Ref, ...], said_each(parse_ref)]
    ask_by: Annotated[int | None, said(parse_working_days)] = None
    decided: Annotated[date | None, told(ordered_of)] = None


class JobModel(Model):
    """A job file as written."""

    format: Annotated[str, said(parse_format)]
    job: Annotated[str, said(parse_name)]
    title: Line = None
    place: PlaceModel
    words: Annotated[str | None, said(one_of(("US", "UK"), "form of words"))] = None
    start: Annotated[date, said(parse_day)]
    promise: Annotated[date | None, told(day_of)] = None
    prefer: Annotated[tuple[Named, ...] | None, said_each(parse_preference)] = None
    hand_over_needs: Annotated[tuple[str, ...] | None, said_each(one_of(DISTURBANCES, "use of a layer"))] = None
    closed: Annotated[tuple[Days, ...] | None, told(spans_of)] = None
    people: People | None = None
    house: Annotated[HouseModel | None, may_be_empty] = None
    air: Annotated[AirWords | None, told(parse_air_words)] = None
    rooms: dict[str, RoomModel]
    orders: dict[str, OrderModel] | None = None
    must_haves: Annotated[dict[Ref, tuple[Named, ...]] | None, told(must_haves_of)] = None
    decisions: dict[str, DecisionModel] | None = None
    booked: Annotated[tuple[Booked, ...] | None, told(booked_of)] = None
    measured: Annotated[tuple[Reading, ...] | None, told(measured_of)] = None
