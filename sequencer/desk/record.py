"""One fact, or one undoing, into the site book at a path; what stands already is not written twice."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.desk.book import opened
from sequencer.files.book import Book, book_of
from sequencer.files.book_line import line_text
from sequencer.files.book_words import fact_words
from sequencer.terms.fact import Fact
from sequencer.terms.minute import HOUR, Minute

ONE_HAPPENING = HOUR
"""Told without an hour, the same words so soon after each other are the same happening told twice [min]."""


@dataclass(frozen=True)
class Recorded:
    """The line of a fact. `fresh` False: it stood already. `corrects`: the fact it takes the place of."""

    fact: Fact
    fresh: bool
    corrects: Fact | None = None


def record(path: Path, zone: ZoneInfo, fact: Fact, hour_told: bool) -> Recorded:
    """Writes a fact; its number and what it corrects are found while nobody else writes.

    `hour_told`: somebody said when it happened; else it is now, whenever the same is told again. Raises Faulty if the
    book has faults, OSError if it cannot be written.
    """
    with opened(path) as pen:
        book = book_of(pen.read(), zone, path.name)
        for other in reversed(book.facts):
            if same(fact, other, hour_told):
                return Recorded(other, False)
        numbered = replace(fact, number=book.last + 1)
        pen.add(line_text(numbered.number, fact.happened, fact.written, fact_words(fact, zone), zone))
    return Recorded(numbered, True, next((each for each in book.facts if each.slot == numbered.slot), None))


def same(fact: Fact, other: Fact, hour_told: bool) -> bool:
    """True if both tell of one happening. Where only one can stand of its kind, any hour does if none was told."""
    if (fact.kind, fact.about, fact.words) != (other.kind, other.about, other.words):
        return False
    if hour_told:
        return fact.happened == other.happened
    if other.slot == replace(fact, number=other.number + 1).slot:
        return True
    return abs(fact.happened - other.happened) < ONE_HAPPENING


class NothingToUndo(Exception):
    """There is no such fact, or it is not said which one is meant."""


def undo(path: Path, zone: ZoneInfo, number: int | None, now: Minute) -> Recorded:
    """Strikes the newest standing fact, or the one of a number; not fresh if that one is struck already.

    Raises NothingToUndo, also where a fact was struck last and no number is said: once more could be meant, or that.
    """
    with opened(path) as pen:
        book = book_of(pen.read(), zone, path.name)
        struck = next((fact for fact in book.undone if fact.number == number), None)
        if struck is not None:
            return Recorded(struck, False)
        fact = _meant(book, number)
        pen.add(line_text(book.last + 1, now, now, f"undo {fact.number}", zone))
    return Recorded(fact, True)


def _meant(book: Book, number: int | None) -> Fact:
    if number is not None:
        found = next((fact for fact in book.facts if fact.number == number), None)
        if found is None:
            raise NothingToUndo(f"no fact {number} stands in the site book; log shows them with their numbers")
        return found
    if not book.facts:
        raise NothingToUndo("nothing stands in the site book")
    newest = book.facts[-1]
    if book.struck_last is not None:
        what = f"fact {book.struck_last} was undone last"
        raise NothingToUndo(f"{what}; to undo fact {newest.number} too, write: undo {newest.number}")
    return newest
