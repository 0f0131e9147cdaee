"""What must hold of every law in any air."""

from __future__ import annotations

from dataclasses import replace
from math import ceil

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from waits_air import HERE, START, air_of, clock, hours, steady, wait

from sequencer.air.hourly import RoomAir, hourly_air
from sequencer.terms.air import AirSaid, AirStatement
from sequencer.terms.laws import LAW_NAMES
from sequencer.terms.minute import HOUR
from sequencer.terms.wait import Limit
from sequencer.waits.clock import wait_clock
from sequencer.waits.families.front import MoistureFront
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

laws = st.sampled_from(LAW_NAMES)
warmths = st.floats(-5, 38)
dampnesses = st.floats(0.05, 0.97)
airs = st.lists(st.tuples(st.integers(-5, 35), st.integers(10, 100)), min_size=2, max_size=40).map(
    lambda hours: air_of([float(t) for t, _ in hours], [h / 100 for _, h in hours])
)
stops = st.sampled_from([(), (Limit("stops", HERE, coldest=5.0),), (Limit("stops", HERE, dampest=0.9, hottest=30.0),)])


def brute_force(law: str, needed: float, air: RoomAir, limits: tuple[Limit, ...], end: int) -> int | None:
    """Ready by adding up minute after minute; None if not within ten days."""
    done, now = 0.0, end
    while done < needed * HOUR - 1e-6:
        if now > end + 10 * 24 * HOUR:
            return None
        hour = air.at(now)
        broken = any(
            (limit.coldest is not None and hour.temperature < limit.coldest)
            or (limit.hottest is not None and hour.temperature > limit.hottest)
            or (limit.dampest is not None and hour.humidity > limit.dampest)
            for limit in limits
        )
        done += 0.0 if broken else rate(law, hour.temperature, hour.humidity)
        now += 1
    return now


@settings(max_examples=60, deadline=None)
@given(laws, airs, stops, st.integers(1, 300), st.integers(0, 45 * HOUR))
def test_ready_is_what_adding_up_minute_by_minute_gives(
    law: str, air: RoomAir, limits: tuple[Limit, ...], tenths: int, after: int
) -> None:
    end = START + after
    ready = int(clock(law, tenths / 10, air, *limits).ready(np.array([end]))[0])
    expected = brute_force(law, tenths / 10, air, limits, end)
    if expected is None:
        assert ready > end + 10 * 24 * HOUR - 2
    else:
        assert abs(ready - expected) <= 1


@settings(max_examples=60, deadline=None)
@given(laws, airs, stops, st.floats(0.1, 200), st.floats(0, 30))
def test_ready_never_falls_when_the_end_of_work_rises(
    law: str, air: RoomAir, limits: tuple[Limit, ...], needed: float, floor: float
) -> None:
    ends = START - HOUR + np.arange(45 * HOUR, dtype=np.int64)
    readies = clock(law, needed, air, *limits, floor=floor).ready(ends)
    assert np.all(np.diff(readies) >= 0)
    assert np.all(readies >= ends + ceil(round(floor * HOUR, 6)))


@settings(max_examples=80)
@given(laws, warmths, warmths, dampnesses)
def test_colder_air_of_equal_humidity_is_never_earlier(law: str, one: float, other: float, humidity: float) -> None:
    cold, warm = min(one, other), max(one, other)
    assert hours(law, 24, steady(cold, humidity)) >= hours(law, 24, steady(warm, humidity))


@settings(max_examples=80)
@given(laws, warmths, dampnesses, dampnesses)
def test_damper_air_is_never_earlier_except_for_what_cures_by_moisture(
    law: str, temperature: float, one: float, other: float
) -> None:
    dry, damp = (
        hours(law, 24, steady(temperature, min(one, other))),
        hours(law, 24, steady(temperature, max(one, other))),
    )
    if isinstance(LAWS[law].family, MoistureFront):
        assert damp <= dry
    else:
        assert damp >= dry


@settings(max_examples=40)
@given(laws, warmths, dampnesses, st.lists(st.integers(1, 200), max_size=6), st.floats(1, 100))
def test_air_said_in_finer_pieces_changes_no_wait(
    law: str, temperature: float, humidity: float, cuts: list[int], needed: float
) -> None:
    def ready(edges: list[int]) -> int:
        periods = tuple(
            AirStatement(START + a * HOUR, START + b * HOUR, temperature, humidity, "stated", HERE)
            for a, b in zip(edges, edges[1:], strict=False)
        )
        air = hourly_air(AirSaid(periods), START, START + 240 * HOUR)
        return int(clock(law, needed, air).ready(np.array([START + 17]))[0])

    assert ready([0, *sorted(set(cuts)), 240]) == ready([0, 240])


@settings(max_examples=60)
@given(laws, warmths, dampnesses)
def test_a_whole_array_of_air_gives_each_hours_own_pace(law: str, temperature: float, humidity: float) -> None:
    together = rate(law, np.array([temperature, 20.0]), np.array([humidity, 0.5]))
    assert together[0] == pytest.approx(rate(law, temperature, humidity), rel=1e-12)


@settings(max_examples=40)
@given(laws, st.floats(1, 100), st.floats(0.01, 0.99))
def test_a_wait_cut_into_two_stages_of_its_own_law_is_the_same_wait(law: str, needed: float, share: float) -> None:
    """But for the minute the first stage is rounded up, which the second may need longer to make up for."""
    air = air_of([18.0, 9.0, 14.0, 22.0] * 10, [0.5, 0.7, 0.6, 0.55] * 10)
    ends = START + np.arange(0, 1440, 15)
    whole = clock(law, needed, air).ready(ends)
    staged = replace(wait(law, needed * share), then=(wait(law, needed * (1 - share)),))
    late = wait_clock(staged, air).ready(ends) - whole
    paces = rate(law, air.temperature, air.humidity)
    assert np.all((late >= 0) & (late <= 2 + paces.max() / paces.min()))
