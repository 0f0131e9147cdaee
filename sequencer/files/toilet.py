"""The absences of the only toilet: which step takes it away, and which gives it back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sequencer.files.nights_needed import nights_needed
from sequencer.files.wrong import listed
from sequencer.terms.hearing import hearings
from sequencer.terms.house import Absence
from sequencer.terms.job import Job, Step
from sequencer.terms.place import Fault


def with_absences(job: Job, nights: int, faults: list[Fault]) -> Job:
    """The job with every absence of its only toilet: each `toilet: off` up to the `toilet: back` that ends it.

    What takes it away lies within one day. One absence may use the nights without; what is off for the day is back the
    same day.
    """
    after = _followers(job, [step.id for step in job.steps if step.toilet is not None])
    backs = {step.id for step in job.steps if step.toilet == "back"}
    found: list[Absence] = []
    for step in job.steps:
        if step.toilet not in ("off", "off for the day"):
            continue
        later = backs & after[step.id]
        first = [id for id in later if all(id == other or other in after[id] for other in later)]
        if first:
            allowed = nights if step.toilet == "off" else 0
            found.append(Absence(step.id, first[0], allowed, step.place))
        else:
            faults.append(_never_back(job, step, bool(later)))
    faults.extend(_shared(job, found))
    faults.extend(_too_long(job, found))
    off = {absence.off for absence in found}
    steps = tuple(replace(step, one_go=True) if step.id in off else step for step in job.steps)
    return replace(job, steps=steps, house=replace(job.house, absences=tuple(found)))


def _followers(job: Job, ids: list[str]) -> dict[str, set[str]]:
    """The ids of all that comes after some steps by links and states; a step in a circle follows itself."""
    heard: dict[str, set[str]] = {step.id: set() for step in job.steps}
    for hearing in hearings(job):
        heard[hearing.giver.id].add(hearing.listener.id)
    found: dict[str, set[str]] = {}
    for id in ids:
        reached, todo = set[str](), [id]
        while todo:
            new = heard[todo.pop()] - reached
            reached |= new
            todo.extend(new)
        found[id] = reached
    return found


def _too_long(job: Job, found: list[Absence]) -> Iterator[Fault]:
    """Absences that the work in between makes longer than they may be, whatever the order of work."""
    for absence in found:
        off, back = job.step(absence.off), job.step(absence.back)
        here = {step.id: step for step in job.steps_in(off.room)}
        after = _followers(job, list(here))
        between = [step for id, step in here.items() if id in after[off.id] and back.id in after[id]]
        if (nights := nights_needed(job, between)) > absence.nights:
            ends = f'"{off.name}" of "{off.use}" and "{back.name}" of "{back.use}"'
            what = f"between {ends} lies work for {nights} night{'s' * (nights > 1)}"
            write = "allow as many without a toilet, or set it back in between with the recipe toilet-reset"
            yield Fault(job.house.place_of("only toilet") or job.place, f"{what} at least", write)


def _never_back(job: Job, step: Step, several: bool) -> Fault:
    what = f'"{step.name}" of "{step.use}" takes the only toilet away, and nothing that comes after it gives it back'
    if several:
        what = f'"{step.name}" of "{step.use}" takes the only toilet away, and it is not clear which step gives it back'
    write = "write toilet: back on the step that sets it, and after: where the order is not clear"
    return Fault(job.house.place_of("only toilet") or job.place, what, write)


def _shared(job: Job, found: list[Absence]) -> Iterator[Fault]:
    longer = {absence.back: absence for absence in found if job.step(absence.off).toilet == "off"}
    if len(longer) > 1:
        steps = [job.step(absence.off) for absence in longer.values()]
        names = listed(f'"{step.name}" of "{step.use}"' for step in steps)
        what = f"the nights without a toilet are asked for by {names}"
        write = "write toilet: off for the day on all but one, by change: in the room"
        yield Fault(job.house.place_of("only toilet") or job.place, what, write)
