"""Time inside the house: whole minutes since 1970-01-01 00:00 UTC. Zones exist only in files and views."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TypeAlias

Minute: TypeAlias = int
"""Whole minutes since 1970-01-01 00:00 UTC [min]."""

HOUR = 60
DAY = 24 * HOUR

Span: TypeAlias = tuple[Minute, Minute]
"""A half-open stretch of time: first minute in, first minute out [min]."""


def minute_of(moment: datetime) -> Minute:
    """The Minute of an aware datetime; seconds are dropped. ValueError if it has no zone."""
    if moment.tzinfo is None:
        raise ValueError("a moment needs a zone")
    return int(moment.timestamp() // 60)


def utc(minute: Minute) -> datetime:
    """The aware UTC datetime of a Minute."""
    return datetime.fromtimestamp(minute * 60, UTC)
