"""The air allows the work, and spoils nothing while it waits."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.site import Site
from sequencer.audit.slow_wait import Hours, breaks
from sequencer.terms.minute import HOUR, Minute
from sequencer.terms.wait import Limit


def broken(site: Site) -> Iterator[str]:
    """Hours of work, or before it, or of a wait, in air that a limit does not allow."""
    for step in (step for step in site.job.steps if not site.behind(step)):
        for limit in step.air:
            for start, end in site.times.pieces[step.id]:
                if _met(site.air(step), limit, start, end):
                    yield f"{step.id} is done in air it does not allow"
            early = site.start(step) - round(limit.hours_before * HOUR)
            if limit.kind == "before" and _met(site.air(step), limit, early, site.start(step)):
                yield f"{step.id} has had the wrong air before it"
        for wait in step.waits:
            for limit in wait.limits:
                air, ready = site.wait_air(step), site.ready(step, wait.purpose)
                if limit.kind == "spoils" and _met(air, limit, site.end(step), ready):
                    yield f"{step.id} is spoilt by the air before it is ready for {wait.purpose}"


def _met(air: Hours, limit: Limit, start: Minute, end: Minute) -> bool:
    for hour in range(start // HOUR * HOUR, min(end, max(air.end, start + HOUR)), HOUR):
        if breaks(limit, air.at(hour)):
            return True
    return False
