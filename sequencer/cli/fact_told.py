"""A fact as it is told on a command line, met with the job."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

from sequencer.cli.meant import meant
from sequencer.cli.planned import Refused
from sequencer.files.book_fact import fact_of
from sequencer.files.book_line import Line, line_text, parse_line
from sequencer.files.book_meet import met
from sequencer.files.book_words import fact_words
from sequencer.files.calendar_days import ONE, Calendar
from sequencer.files.happened import parse_happened
from sequencer.files.tree import Text
from sequencer.files.wrong import Wrong
from sequencer.terms.fact import Fact
from sequencer.terms.job import Job
from sequencer.terms.minute import Minute, minute_of
from sequencer.terms.place import Fault, Place

COMMAND_LINE = Place("command")


def fact_told(job: Job, kind: str, words: str, at: str | None, today: date | None) -> Fact:
    """The fact as the site book would hold it, behind all its lines. Refused if it cannot be."""
    calendar = Calendar(ZoneInfo(job.zone))
    now = clock_now(calendar, today)
    try:
        happened = parse_happened(at, _day(now, calendar), calendar) if at else now
        said = Text(meant(job, kind, " ".join(words.split())), COMMAND_LINE)
        number = max((fact.number for fact in job.facts), default=0) + 1
        first = fact_of(Line(number, happened, now, said, COMMAND_LINE), calendar)
        line = line_text(number, happened, now, fact_words(first, calendar.zone), calendar.zone)
        fact = fact_of(parse_line(Text(line, COMMAND_LINE), calendar), calendar)
    except Wrong as wrong:
        raise Refused(str(wrong)) from None
    if happened > max(now, calendar.midnight(_day(now, calendar) + ONE) if today else now):
        raise Refused("this lies in the future; a fact has happened: write --at with an hour gone by")
    faults: list[Fault] = []
    met(job, [fact], faults)
    if faults:
        raise Refused("; ".join(f"{fault.what}; {fault.write}" for fault in faults))
    return fact


def clock_now(calendar: Calendar, today: date | None) -> Minute:
    """This minute; with another day for today, the same hour of that day."""
    now = datetime.now(calendar.zone)
    return minute_of(now) if today is None else calendar.minute(today, now.hour * 60 + now.minute)


def _day(moment: Minute, calendar: Calendar) -> date:
    return datetime.fromtimestamp(moment * 60, calendar.zone).date()
