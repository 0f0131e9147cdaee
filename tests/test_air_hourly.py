"""Which of the things said of a room's air stands in which hour."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sequencer.air.hourly import RoomAir, assumptions, hourly_air
from sequencer.terms.air import AirReading, AirSaid, AirStatement
from sequencer.terms.minute import DAY, HOUR
from sequencer.terms.place import Place

HERE = Place("job.yaml", 12, 3)
START = 60 * 480_000


def said_for(first: int, last: int, temperature: float | None, humidity: float | None, how: str) -> AirStatement:
    """A statement for hours [first, last) from START."""
    return AirStatement(START + first * HOUR, START + last * HOUR, temperature, humidity, how, HERE)


def read_at(hour: float, temperature: float | None, humidity: float | None = None) -> AirReading:
    return AirReading(START + round(hour * HOUR), temperature, humidity, HERE)


def air_of(*statements: AirStatement, readings: tuple[AirReading, ...] = (), days: int = 3) -> RoomAir:
    return hourly_air(AirSaid(statements, readings), START, START + days * DAY)


def sources(air: RoomAir, hour: int) -> tuple[float, str, float, str]:
    at = air.at(START + hour * HOUR)
    return at.temperature, at.how_temperature, at.humidity, at.how_humidity


def test_where_nothing_is_known_18_c_and_60_percent_are_assumed_and_said_so() -> None:
    air = air_of()
    assert sources(air, 0) == (18.0, "assumed", 0.6, "assumed")
    assert assumptions(air) == (
        "temperature assumed, 18 C throughout: no reading, and nothing said",
        "humidity assumed, 60 % throughout: no reading, and nothing said",
    )


def test_temperature_and_humidity_are_taken_separately() -> None:
    air = air_of(said_for(0, 72, 14.0, None, "stated"))
    assert sources(air, 5) == (14.0, "stated", 0.6, "assumed")
    assert assumptions(air) == ("humidity assumed, 60 % throughout: no reading, and nothing said",)


def test_what_is_assumed_for_a_part_is_said_in_hours() -> None:
    air = air_of(said_for(0, 60, 14.0, 0.7, "stated"))
    assert assumptions(air)[0] == "temperature assumed, 18 C for 12 of 72 h: no reading, and nothing said"


def test_better_sources_win_whatever_their_order_in_the_file() -> None:
    heated, stated = said_for(0, 24, 20.0, None, "heated"), said_for(0, 48, 12.0, 0.8, "stated")
    words = said_for(0, 72, 16.0, 0.5, "in words")
    for order in ((heated, stated, words), (words, stated, heated)):
        air = air_of(*order)
        assert [sources(air, hour) for hour in (0, 30, 60)] == [
            (20.0, "heated", pytest.approx(0.4798, abs=1e-4), "heated"),
            (12.0, "stated", 0.8, "stated"),
            (16.0, "in words", 0.5, "in words"),
        ]


def test_a_heater_never_cools_a_room_that_is_said_to_be_warmer_but_wins_over_an_assumption() -> None:
    warm = air_of(said_for(0, 72, 24.0, None, "stated"), said_for(0, 72, 20.0, None, "heated"))
    assert sources(warm, 5)[:2] == (24.0, "stated")
    cool = air_of(said_for(0, 72, 16.0, None, "heated"))
    assert sources(cool, 5)[:2] == (16.0, "heated")


def test_a_heater_turned_down_is_turned_down() -> None:
    air = air_of(said_for(0, 72, 22.0, None, "heated"), said_for(24, 72, 16.0, None, "heated"))
    assert [sources(air, hour)[0] for hour in (0, 30)] == [22.0, 16.0]


def test_a_dryer_never_wets_a_room_that_is_said_to_be_drier() -> None:
    periods = said_for(0, 24, None, 0.75, "stated"), said_for(24, 48, None, 0.4, "stated")
    air = air_of(*periods, said_for(0, 72, None, 0.5, "dried"))
    assert [sources(air, hour)[2:] for hour in (0, 30, 60)] == [(0.5, "dried"), (0.4, "stated"), (0.5, "dried")]


def test_of_two_statements_of_a_kind_the_later_one_wins() -> None:
    air = air_of(said_for(0, 72, 12.0, None, "stated"), said_for(24, 48, 15.0, None, "stated"))
    assert [air.at(START + hour * HOUR).temperature for hour in (23, 24, 47, 48)] == [12.0, 15.0, 15.0, 12.0]


def test_a_reading_stands_twelve_hours_around_itself_and_wins_over_what_was_said() -> None:
    air = air_of(said_for(0, 72, 20.0, 0.5, "heated"), readings=(read_at(30.5, 11.0, 0.9),))
    standing = [hour for hour in range(72) if sources(air, hour)[1] == "reading"]
    assert standing == list(range(18, 43))
    assert sources(air, 30) == (11.0, "reading", 0.9, "reading")
    assert sources(air, 43) == (20.0, "heated", 0.5, "heated")


def test_of_two_readings_the_nearer_one_stands() -> None:
    air = air_of(readings=(read_at(10.5, 10.0), read_at(20.5, 14.0)))
    assert [air.at(START + hour * HOUR).temperature for hour in (10, 15, 16, 20)] == [10.0, 10.0, 14.0, 14.0]


def test_readings_within_an_hour_are_averaged() -> None:
    air = air_of(readings=(read_at(10.1, 10.0), read_at(10.5, 11.0), read_at(10.9, 15.0)))
    assert air.at(START + 10 * HOUR).temperature == pytest.approx(12.0)


def test_the_newest_reading_is_carried_forward_where_nothing_else_is_said() -> None:
    readings = (read_at(0.5, 10.0, 0.8), read_at(2.5, 11.0))
    air = air_of(said_for(40, 48, 16.0, None, "in words"), readings=readings)
    assert sources(air, 14) == (11.0, "reading", 0.8, "carried forward")
    assert sources(air, 20) == (11.0, "carried forward", 0.8, "carried forward")
    assert sources(air, 44) == (16.0, "in words", 0.8, "carried forward")


def test_a_reading_is_not_carried_back_before_the_hours_it_stands() -> None:
    assert sources(air_of(readings=(read_at(40.5, 10.0),)), 20)[1] == "assumed"


def test_an_assumption_in_the_file_gives_way_to_a_reading_carried_forward() -> None:
    air = air_of(said_for(0, 72, 16.0, 0.5, "assumed"), readings=(read_at(0.5, 10.0),))
    assert sources(air, 40) == (10.0, "carried forward", 0.5, "assumed")


def test_a_statement_counts_in_the_hours_whose_middle_it_covers() -> None:
    half_past = AirStatement(START + 30, START + 5 * HOUR + 30, 14.0, None, "stated", HERE)
    air = air_of(half_past)
    assert [hour for hour in range(8) if sources(air, hour)[1] == "stated"] == [0, 1, 2, 3, 4]


def test_every_hour_touched_has_air_and_outside_it_the_nearest_hour_stands() -> None:
    said = AirSaid((said_for(0, 1, 10.0, None, "stated"), said_for(1, 9, 15.0, None, "stated")))
    air = hourly_air(said, START + 59, START + 61)
    assert (air.first, air.end) == (START, START + 2 * HOUR)
    assert (air.at(START - 1).temperature, air.at(START + 9999).temperature) == (10.0, 15.0)


def test_air_for_no_time_at_all_is_refused() -> None:
    with pytest.raises(ValueError, match="at least a minute"):
        hourly_air(AirSaid(), START, START)


@settings(max_examples=40)
@given(st.lists(st.integers(1, 71), max_size=8), st.floats(-5, 35), st.floats(0.1, 0.95))
def test_air_said_in_finer_pieces_is_the_same_air(cuts: list[int], temperature: float, humidity: float) -> None:
    edges = [0, *sorted(set(cuts)), 72]
    pieces = [said_for(a, b, temperature, humidity, "stated") for a, b in zip(edges, edges[1:], strict=False)]
    fine, whole = air_of(*pieces), air_of(said_for(0, 72, temperature, humidity, "stated"))
    assert np.array_equal(fine.temperature, whole.temperature)
    assert np.array_equal(fine.how_humidity, whole.how_humidity)
