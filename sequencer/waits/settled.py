"""The humidity at which as much water leaves a room with its air as wet layers give off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from sequencer.air.alike import alike
from sequencer.air.hourly import RoomAir
from sequencer.air.moist import Floats, humidity_ratio, saturation_pressure
from sequencer.terms.minute import HOUR, Span
from sequencer.waits.families.drying import VapourDeficit
from sequencer.waits.layer import Layer, WetRoom
from sequencer.waits.rate import rate
from sequencer.waits.table import LAWS

HALVINGS = 30
"""How often the range in which a humidity is sought is halved: far finer than any meter reads."""

KEPT = 256
"""Layers whose water is remembered, in the air of a room: a matter of speed alone."""

Offers = dict[float, Floats]
"""Water given off into bone-dry air [kg/h], by what power of dryness."""


def hours_of(air: RoomAir, span: Span) -> slice:
    """The hours of the air that a span touches."""
    first, out = ((edge - air.first) // HOUR for edge in (span[0], span[1] + HOUR - 1))
    last = min(out, len(air.humidity))
    return slice(min(max(first, 0), last), last) if last > 0 else slice(0, 0)


def offers_of(air: RoomAir, layers: Iterable[tuple[Layer, slice | None]], hours: slice) -> Offers:
    """Water given off into bone-dry air of some hours' temperature, float64[n]; by layers that wet hours, None: all."""
    found: Offers = {}
    for layer, wets in layers:
        dryness, water = _offer(air, layer)
        offer = found.setdefault(dryness, np.zeros(hours.stop - hours.start))
        low, high = (hours.start, hours.stop) if wets is None else (wets.start, wets.stop)
        low, high = max(low, hours.start), min(high, hours.stop)
        if low < high:
            offer[low - hours.start : high - hours.start] += water[low:high]
    return found


@lru_cache(maxsize=KEPT)
def _offer(air: RoomAir, layer: Layer) -> tuple[float, Floats]:
    """The power of dryness by which a layer dries, and its water into bone-dry air of each hour, float64[n]."""
    family, dries = LAWS[layer.dries.law].family, layer.dries
    assert isinstance(family, VapourDeficit), f"{dries.law} is no law of drying"
    few, again = alike((air.temperature,))
    warmth = air.temperature[few]
    pace = rate(dries.law, warmth, np.zeros_like(warmth), dries.at_temperature, dries.at_humidity)
    return family.dryness, (layer.water / dries.hours * pace)[again]


def settled(temperature: Floats, humidity: Floats, room: WetRoom, offers: Offers) -> Floats:
    """The humidity [0..1] at which as much water leaves as is given off, float64[n]."""
    few, again = alike((temperature, humidity, *offers.values()))
    here = {dryness: offer[few] for dryness, offer in offers.items()}
    found: Floats = _halved(temperature[few], humidity[few], room, here)[again]
    return found


def together(offers: Sequence[Offers], hours: Sequence[NDArray[np.bool_]]) -> Offers:
    """Offers one behind the other, of some of their hours."""
    found: Offers = {}
    for dryness in dict.fromkeys(dryness for offer in offers for dryness in offer):
        said = [
            offer[dryness][there] if dryness in offer else np.zeros(int(there.sum()))
            for offer, there in zip(offers, hours, strict=True)
        ]
        found[dryness] = np.concatenate(said)
    return found


def _halved(temperature: Floats, humidity: Floats, room: WetRoom, offers: Offers) -> Floats:
    saturated = saturation_pressure(temperature)
    low = np.minimum(humidity, 1.0)
    carried, high = humidity_ratio(low * saturated), np.ones_like(low)
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        off = sum(offer * (1.0 - middle) ** dryness for dryness, offer in offers.items())
        enough = room.exchange * (humidity_ratio(middle * saturated) - carried) + room.dryer >= off
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return high
