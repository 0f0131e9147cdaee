"""What was told is obeyed: steps lie where they were told to be, and nothing else is taken to have happened unasked."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.air.hourly import air_on
from sequencer.audit.following import heard
from sequencer.audit.site import Site
from sequencer.audit.slow_wait import ready
from sequencer.terms.job import Step
from sequencer.terms.minute import Minute

ENDS = ("done", "passed", "failed")


def broken(site: Site) -> Iterator[str]:
    """Facts that a plan does not keep to, and steps it takes to have happened that cannot have gone to plan."""
    told: dict[tuple[str, str], Minute] = {(fact.kind, fact.about): fact.happened for fact in site.job.facts}
    for step in site.job.steps:
        began = told.get(("began", step.id))
        ended = next((told[kind, step.id] for kind in ENDS if (kind, step.id) in told), None)
        if ended is not None and site.end(step) != ended:
            yield f"{step.id} does not end when it was told to have ended"
        if began is not None and (ended is not None or site.behind(step)) and site.start(step) != began:
            yield f"{step.id} does not begin when it was told to have begun"
        if began is None and ended is None and site.behind(step):
            yield from _untold(site, step)


def _untold(site: Site, step: Step) -> Iterator[str]:
    start = site.start(step)
    if step.kind == "hold" and site.end(step) < site.job.now:
        yield f"{step.id} is taken to have passed, and nobody told so"
    for giver, purpose in heard(site, step):
        if start < _ready(site, giver, purpose):
            yield f"{step.id} is taken to have begun before {giver.id} was ready"
    for order in site.job.orders:
        if step.id in order.for_steps and (order.delivered is None or order.delivered > start):
            yield f"{step.id} is taken to have begun, and nobody saw its {order.item}"
    booked = [booking.at for booking in site.job.bookings if booking.step == step.id]
    told = site.job.told
    if told is not None and not booked and site.times.pieces[step.id] != told.pieces.get(step.id):
        yield f"{step.id} is taken to have happened at another time than people were told"


def _ready(site: Site, giver: Step, purpose: str | None) -> Minute:
    """When a giver was ready in the air of its room alone: how damp layers made it shows only in the whole plan."""
    wait = giver.wait_for(purpose) if purpose else None
    if wait is None:
        return site.end(giver)
    air = air_on(site.airs[giver.room], (surface.name for surface in giver.surfaces))
    return ready(wait, air, site.end(giver))
