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
    """Something asked of the job. `key`: its flag, under which the answer stands; `words`: the only ones, if any."""

    key: str
    ask: str
    default: str
    reason: str
    words: tuple[str, ...] = ()

    def heard(self, answer: str) -> str | None:
        """The answer as the file writes it: one of its words, told by its beginning; None if it is none of them."""
        if not self.words:
            return answer
        said = answer.lower()
        return next((word for word in self.words if said and word.lower().startswith(said)), None)


def questions(folder: str, today: date, zone: str) -> tuple[Question, ...]:
    """What is asked of the whole job, in order. `zone`: that of this machine."""
    return (
        Question("title", "What is the job called", folder, "the folder's name"),
        Question("start", "Which day does it start", first_monday(today), "the first Monday a week from now or later"),
        Question("promise", "Which day was promised", "none", "nothing is promised before there is a plan"),
        Question("zone", "Which time zone is it in", zone, "that of this machine"),
        Question("holidays", "Whose public holidays are kept", "none", "such as CA BC, US or GB ENG"),
        Question("words", "US or UK words", "US", "US stands for Canada too", ("US", "UK")),
        Question("lived-in", "Do people live there meanwhile", "yes", "as in most houses", ("yes", "no")),
        Question("air", "What air has the room", "lived-in and heated", "nobody has a meter there yet"),
    )


def first_monday(today: date) -> str:
    """The first Monday that leaves time to order and to ask."""
    day = today + LEAD
    return day_words(day + timedelta(days=-day.weekday() % 7))


ROOM: Final = Question("room", "Which room, and its size", "bathroom: 2.4 m by 1.5 m, 2.4 m high", "a usual hall bath")
