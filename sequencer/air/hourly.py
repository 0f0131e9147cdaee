"""A room's air laid out: from everything that is said of it, the best source for each hour."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sequencer.air.layers import (
    HOW,
    Figure,
    Pairs,
    Readings,
    assumed,
    lay_dryers,
    lay_heaters,
    lay_hours,
    lay_periods,
)
from sequencer.air.moist import saturation_pressure
from sequencer.air.outdoors import OutdoorAir, brought_indoors, outdoor_air
from sequencer.air.room_air import HourAir, RoomAir, air_on
from sequencer.air.switched import OVERLAYS, switched
from sequencer.terms.air import AirSaid, AirStatement, Outdoors
from sequencer.terms.minute import HOUR, Minute

__all__ = ["HourAir", "RoomAir", "air_on", "assumptions", "hourly_air"]

ASSUMED_TEMPERATURE = 18.0
"""What a room is taken to be where nothing is known [C]: an assumption, no source."""
ASSUMED_HUMIDITY = 0.60
"""The same for humidity [0..1]: an assumption, no source."""

_Floats = NDArray[np.float64]


def hourly_air(said: AirSaid, start: Minute, end: Minute) -> RoomAir:
    """The air of every clock hour touched by [start, end).

    For temperature and humidity separately, and for each hour: a reading that stands 12 h around itself, else a heated
    or dried period, else a stated one, else one in words, else outdoor air brought indoors, else the newest reading
    carried forward, else an assumption. Heat keeps the water in the air that is known of the room, unless a humidity is
    said with it. Several readings in an hour are averaged; among periods of a kind the later one in the files wins. A
    period counts in the hours whose middle it covers. ValueError if end is not after start.
    """
    if end <= start:
        raise ValueError("air needs at least a minute")
    first = start // HOUR * HOUR
    hours = -((first - end) // HOUR)
    statements = switched(said)
    outside = None if said.outdoors is None else outdoor_air(said.outdoors, first, hours)
    temperature, unheated = _temperature(statements, said, outside, first, hours)
    humidity = _humidity(statements, said, outside, temperature, unheated)
    floor = _floor(statements, temperature)
    return RoomAir(first, temperature.values, humidity.values, temperature.codes, humidity.codes, floor)


def _temperature(
    statements: Sequence[AirStatement], said: AirSaid, outside: OutdoorAir | None, first: Minute, hours: int
) -> tuple[Figure, Figure]:
    """The room's temperature, and what it would be without its heater."""
    figure = assumed(first, hours, ASSUMED_TEMPERATURE)
    periods = [(each, each.temperature) for each in statements if each.temperature is not None]
    logger = Readings([(each, each.temperature) for each in said.readings if each.temperature is not None])
    indoors = None if outside is None or said.outdoors is None else _indoors(outside, said.outdoors)
    _lay_known(figure, periods, logger, indoors)
    unheated = Figure(first, figure.values.copy(), figure.codes.copy())
    lay_heaters(figure, _of(periods, "heated"))
    logger.lay(figure)
    return figure, unheated


def _humidity(
    statements: Sequence[AirStatement],
    said: AirSaid,
    outside: OutdoorAir | None,
    temperature: Figure,
    unheated: Figure,
) -> Figure:
    figure = assumed(temperature.first, len(temperature.values), ASSUMED_HUMIDITY)
    periods = [(each, each.humidity) for each in statements if each.humidity is not None]
    logger = Readings([(each, each.humidity) for each in said.readings if each.humidity is not None])
    indoors = None
    if outside is not None and said.outdoors is not None:
        indoors = brought_indoors(outside, temperature.values, said.outdoors.gain, said.outdoors.altitude)
    _lay_known(figure, periods, logger, indoors)
    _heat_dries(figure, temperature, unheated)
    lay_periods(figure, _of(periods, "heated"))
    lay_dryers(figure, _of(periods, "dried"))
    logger.lay(figure)
    return figure


def _heat_dries(humidity: Figure, temperature: Figure, unheated: Figure) -> None:
    """Where a heater warms air whose own state is known, its water is kept: the vapour's pressure stays."""
    heated = temperature.codes == HOW.index("heated")
    known = (humidity.codes != HOW.index("assumed")) & (unheated.codes != HOW.index("assumed"))
    dries = heated & known & (humidity.codes != HOW.index("outdoors"))
    vapour = humidity.values * saturation_pressure(unheated.values)
    kept = np.minimum(vapour / saturation_pressure(temperature.values), 1.0)
    lay_hours(humidity, np.where(dries, kept, np.nan), "heated")


def _floor(statements: Sequence[AirStatement], temperature: Figure) -> _Floats | None:
    """How warm the floor is [C], the air's warmth where nothing is said of it; None if nothing ever is."""
    periods = [(each, each.floor) for each in statements if each.floor is not None]
    if not periods:
        return None
    figure = Figure(temperature.first, temperature.values.copy(), temperature.codes.copy())
    lay_periods(figure, periods)
    return figure.values


def _lay_known(figure: Figure, periods: Pairs, logger: Readings, outdoors: _Floats | None) -> None:
    """Lay every source but heaters, dryers and readings that stand, the poorest first."""
    lay_periods(figure, _of(periods, "assumed"))
    logger.lay_forward(figure)
    if outdoors is not None:
        lay_hours(figure, outdoors, "outdoors")
    lay_periods(figure, [pair for pair in periods if pair[0].how not in OVERLAYS | {"assumed"}])


def _of(periods: Pairs, how: str) -> list[tuple[AirStatement, float]]:
    return [pair for pair in periods if pair[0].how == how]


def _indoors(outside: OutdoorAir, outdoors: Outdoors) -> _Floats:
    """The room's temperature [C] where only the outdoor air is known: heated, or as cold as outside."""
    warmth = outside.temperature
    return warmth if outdoors.heated_to is None else np.maximum(warmth, outdoors.heated_to)


def assumptions(air: RoomAir) -> tuple[str, ...]:
    """What of the air rests on an assumption, in words; empty if nothing does."""
    total = len(air.temperature)
    sentences = []
    for what, how, figure in (
        ("temperature", air.how_temperature, f"{ASSUMED_TEMPERATURE:g} C"),
        ("humidity", air.how_humidity, f"{100 * ASSUMED_HUMIDITY:g} %"),
    ):
        assumed = int(np.count_nonzero(how == HOW.index("assumed")))
        if assumed:
            stretch = "throughout" if assumed == total else f"for {assumed} of {total} h"
            sentences.append(f"{what} assumed, {figure} {stretch}: no reading, and nothing said")
    return tuple(sentences)
