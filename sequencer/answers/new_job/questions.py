"""What a new job is asked: each with what stands if nobody answers, and why that."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sequencer.files.days import day_words

LEAD = timedelta(days=7)
"""A new job starts no sooner than this: time to order and to ask; common practice, no source."""


@dataclass(frozen=True)
class Question:
    """Something asked of the job: `key` is its flag and stands for it in the answers."""

    key: str
    ask: str
    default: str
    reason: str


def questions(folder: str, today: date, zone: str) -> tuple[Question, ...]:
    """What is asked of the whole job, in order. `zone`: that of this machine."""
    return (
        Question("title", "What is the job called", folder, "the folder's name"),
        Question("start", "Which day does it start", first_monday(today), "the first Monday a week from now or later"),
        Question("promise", "Which day was promised", "none", "nothing is promised before there is a plan"),
        Question("zone", "Which time zone is it in", zone, "that of this machine"),
        Question("holidays", "Whose public holidays", "none", "such as CA BC, US or GB ENG; else none are known"),
        Question("words", "US or UK words", "US", "US stands for Canada too"),
        Question("lived-in", "Do people live there meanwhile", "yes", "most bathrooms are done in a house lived in"),
        Question("air", "What air has the room", "lived-in and heated", "nobody has a meter there yet"),
    )


def first_monday(today: date) -> str:
    """The first Monday that leaves time to order and to ask."""
    day = today + LEAD
    return day_words(day + timedelta(days=-day.weekday() % 7))


ROOM: Final = Question("room", "Which room, and its size", "bathroom: 2.4 m by 1.5 m, 2.4 m high", "a usual hall bath")
