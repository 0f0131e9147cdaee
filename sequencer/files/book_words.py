"""A fact in the words of the site book: what its line says behind the moments, days and hours in full."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from sequencer.files.book_fact import BY
from sequencer.files.book_line import moment_text
from sequencer.files.days import day_words
from sequencer.files.tree import pieces
from sequencer.terms.fact import Fact
from sequencer.terms.minute import Minute, utc


def fact_words(fact: Fact, zone: ZoneInfo) -> str:
    """The words of a line that `fact_of` reads as this very fact."""
    rest = _rest(fact, zone)
    if not fact.about:
        return f"{fact.kind} {rest}"
    return f"{fact.kind} {fact.about}" + (f", {rest}" if rest else "")


def _rest(fact: Fact, zone: ZoneInfo) -> str:
    if fact.kind == "late" and fact.span is not None:
        return f"until {_day(fact.span[1], zone)}"
    if fact.kind == "away" and fact.span is not None:
        return f"{_day(fact.span[0], zone)} to {_day(fact.span[1] - 1, zone)}"
    if fact.kind in ("asked", "booked") and fact.at is not None:
        return moment_text(fact.at, zone)
    if fact.kind in ("ordered", "delivered") and fact.at is not None:
        return ", ".join(_in_full(each, fact.at, zone) for each in pieces(fact.words))
    return fact.words


def _in_full(piece: str, at: Minute, zone: ZoneInfo) -> str:
    by = BY.fullmatch(piece)
    return f"{by['what']} by {_day(at - 1, zone)}" if by else piece


def _day(minute: Minute, zone: ZoneInfo) -> str:
    """The day a minute lies in."""
    return day_words(utc(minute).astimezone(zone).date())
