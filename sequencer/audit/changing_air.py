"""No heater, dryer or other air is counted on before the step it begins with is done."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.site import Site


def broken(site: Site) -> Iterator[str]:
    """Air that is taken to change too soon."""
    for room in site.job.rooms:
        for switch in room.air.switches:
            for id in switch.steps:
                if switch.at is None or switch.at < site.end(site.job.step(id)):
                    yield f"the air of the {room.name} is taken to change before {id} is done"
