"""The log as JSON."""

from __future__ import annotations

from sequencer.air.hourly import HourAir
from sequencer.answers.log import AirRange, Log, Told
from sequencer.terms.fact import Fact
from sequencer.views.as_json import document
from sequencer.views.clock import Clock
from sequencer.views.fact_json import fact_as_json
from sequencer.views.log import HEADS


def log_as_json(log: Log) -> str:
    """The whole log as a JSON document."""
    clock = Clock(log.job.zone)

    def told(one: Told) -> dict[str, object]:
        air = None if one.air is None else _air_json(one.air)
        return {**fact_as_json(one.fact, clock.iso), "air": air}

    def maybe(fact: Fact | None) -> dict[str, object] | None:
        return None if fact is None else fact_as_json(fact, clock.iso)

    return document(
        "log",
        job=log.job.name,
        zone=log.job.zone,
        tests=[
            {
                "hold": test.hold.id,
                "fill": test.fill.id,
                "filled": None if test.filled is None else clock.iso(test.filled),
                "level_at_start": maybe(test.start),
                "level_at_end": maybe(test.end),
                "lower": test.lower,
                "verdict": maybe(test.verdict),
                "air": None if test.air is None else _range_json(test.air),
            }
            for test in log.tests
        ],
        **{key: [told(one) for one in getattr(log, key)] for key in HEADS},
        missing=[{"step": step.id, "record": list(items)} for step, items in log.missing],
    )


def _air_json(air: HourAir) -> dict[str, object]:
    return {
        "temperature": round(air.temperature, 2),
        "humidity": round(air.humidity, 4),
        "how_temperature": air.how_temperature,
        "how_humidity": air.how_humidity,
    }


def _range_json(air: AirRange) -> dict[str, object]:
    return {
        "temperature": [round(air.coldest, 2), round(air.warmest, 2)],
        "humidity": [round(air.driest, 4), round(air.dampest, 4)],
        "hours_read": air.read,
        "hours": air.hours,
    }
