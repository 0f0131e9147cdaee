"""Moments as a place says them, for sentences that are told before a plan exists."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from sequencer.files.days import day_words
from sequencer.terms.minute import Minute, utc


def said_day(zone: str, moment: Minute) -> str:
    """The day a moment lies in: `Mon 2 March 2026`."""
    return day_words(utc(moment).astimezone(ZoneInfo(zone)).date())
