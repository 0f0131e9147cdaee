"""The clock and the working days by which something is told that belongs to no job."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

from sequencer.files.calendar_days import ONE, Calendar
from sequencer.files.job import read_job
from sequencer.files.job_model import PersonModel
from sequencer.files.moment import AROUND, NO_PLACE
from sequencer.files.people import workdays
from sequencer.terms.job import Workday
from sequencer.terms.place import Faulty


def calendar_of(job: Path) -> Calendar:
    """The days of the place of a job; NO_PLACE where no job can be read there."""
    try:
        return Calendar(ZoneInfo(read_job(job).zone))
    except (Faulty, OSError):
        return NO_PLACE


def usual_days(around: date, calendar: Calendar) -> tuple[Workday, ...]:
    """The working days of somebody of whom nothing is said, around a day and long after it."""
    return tuple(workdays(PersonModel(), calendar, around - ONE, around + AROUND).values())
