"""Readings of a layer itself, met with the waits they end."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from sequencer.files.calendar_days import Calendar
from sequencer.files.measured_text import Reading
from sequencer.files.uses import Use, find
from sequencer.files.wrong import listed, nearest
from sequencer.terms.job import Step
from sequencer.terms.place import Fault
from sequencer.terms.wait import Measured


def with_readings(
    steps: dict[str, Step],
    readings: tuple[Reading, ...],
    uses: list[Use],
    calendar: Calendar,
    over: date,
    faults: list[Fault],
) -> dict[str, Step]:
    """The steps, each wait with its newest reading; a reading can be no later than the day `over`."""
    found = dict(steps)
    for reading in sorted(readings, key=lambda one: (one.day, one.hour)):
        if reading.day > over:
            faults.append(Fault(reading.place, "this reading lies in the future", "write the day it was taken"))
            continue
        read = Measured(calendar.minute(reading.day, reading.hour), reading.ready, reading.words, reading.place)
        for id in _met(reading, uses, found, faults):
            waits = (replace(w, measured=read) if w.purpose == reading.purpose else w for w in found[id].waits)
            found[id] = replace(found[id], waits=tuple(waits))
    return found


def _met(reading: Reading, uses: list[Use], steps: dict[str, Step], faults: list[Fault]) -> list[str]:
    """Ids of the steps a reading is about: in one room, one of each part."""
    targets = find(reading.step, reading.step.place, uses, None, faults)
    if len(targets) > 1:
        rooms = listed((target.use.room for target in targets), "or")
        what = f'"{reading.step}" stands in several rooms'
        faults.append(Fault(reading.step.place, what, f"write the room before it: {rooms}"))
        return []
    ids = [group[-1] for target in targets for group in target.groups if group[-1] in steps]
    known = dict.fromkeys(wait.purpose for id in ids for wait in steps[id].waits)
    if ids and reading.purpose not in known:
        what = f'"{reading.step}" does not wait to be ready for "{reading.purpose}"'
        write = nearest(reading.purpose, known) if known else "name the step whose layer was read"
        faults.append(Fault(reading.purpose.place, what, write))
        return []
    return ids
