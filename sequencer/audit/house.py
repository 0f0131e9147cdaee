"""No service is off for longer than the house allows; the lift is booked; fumes are gone in time."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.grouped import kin
from sequencer.audit.site import Site, overlap
from sequencer.terms.job import Step
from sequencer.terms.minute import Span


def broken(site: Site) -> Iterator[str]:
    """Services off for too long, carrying without a lift, fumes that meet somebody or stay too late."""
    house = site.job.house
    for step in (step for step in site.job.steps if not site.behind(step)):
        for service in step.services_off:
            allowed = house.services.get(service)
            if allowed is not None and site.end(step) - site.start(step) > allowed:
                yield f"{step.id} takes the {service} off for longer than the house allows"
        if step.lift and house.lift is not None and not _within(site, step, house.lift):
            yield f"{step.id} carries while the lift is not booked"
        if step.fumes is not None and step.where is None:
            fumes = (site.start(step), site.end(step) + step.fumes.minutes)
            if any(overlap(fumes, night) for night in house.fumes_gone):
                yield f"{step.id} leaves fumes in the house for too long"
    for step in site.job.steps:
        if step.fumes is not None and step.where is None:
            fumes = (site.start(step), site.end(step) + step.fumes.minutes)
            near = [room.name for room in site.job.rooms if step.room in (room.name, *site.way_in(room.name))]
            for other in (other for room in near for other in site.in_room(room)):
                yield from _in_them(site, step, fumes, other)


def _within(site: Site, step: Step, spans: tuple[Span, ...]) -> bool:
    return any(start <= site.start(step) and site.end(step) <= end for start, end in spans)


def _in_them(site: Site, step: Step, fumes: Span, other: Step) -> Iterator[str]:
    """Somebody in the fumes of a step, unless they go on with what it waits for."""
    if other is step or other.where is not None or other.stands == "elsewhere" or site.behind(step, other):
        return
    goes_on = kin(step, other) and step.wait_for(other.name) is not None
    if not goes_on and overlap(fumes, (site.start(other), site.end(other))):
        yield f"{other.id} is done in the fumes of {step.id}"
